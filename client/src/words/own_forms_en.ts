/* The words of the place where one's own sheets and protocols are kept. */
export type FormKind = "sheet" | "protocol";

export const ownForms = {
  title: { sheet: "Use a sheet of your own", protocol: "Use a protocol of your own" } as Record<FormKind, string>,
  lead: {
    sheet: "A sheet is a TOML file: passes that hold fields, and a rule for points if it has one. A newer version has a greater number.",
    protocol: "A protocol is a TOML file: what it asks for, with its source. A newer version has a greater number.",
  } as Record<FormKind, string>,
  pick: { sheet: "Take in a sheet file", protocol: "Take in a protocol file" } as Record<FormKind, string>,
  none: { sheet: "No sheet of your own yet.", protocol: "No protocol of your own yet." } as Record<FormKind, string>,
  version: (version: number): string => `version ${version}`,
  kept: (title: string, version: number): string => `${title}, version ${version}, is kept.`,
  save: "Save as a file",
  saveOf: (name: string): string => `Save as a file: ${name}`,
  remove: "Put away",
  removeOf: (name: string): string => `Put away: ${name}`,
  removed: (name: string): string => `${name} is put away. Tables that have it keep it.`,
  notText: "This file is no text.",
  notTextTodo: "Choose a TOML file that was saved as UTF-8.",
  unread: (name: string): string => `${name} was not kept`,
};
