/* The words of the report's screen; the report itself comes from the server. */
export const reportWords = {
  notYet: "The key is not open yet. The report is written from an open table.",
  pdf: "PDF",
  html: "Page to keep (HTML)",
  data: "Data (JSON)",
  readOff: "Read the lines off at",
  caveat: "Bear in mind",
  rowsShown: (shown: number, all: number): string => `The first ${shown} of ${all} lines; the data holds all.`,
};
