/* What travels between client and server, room by room. Names as in the core of the server. */
export type * from "./coffees";
export type * from "./desk";
export type * from "./notes";
export type * from "./plan";
export type * from "./pour";
export type * from "./reveal";
export type * from "./sheet";
export type * from "./table";
export type * from "./taste";
export type { Correction, Named, OwnWord, Reading, Span, Word } from "./words";
