/* What the phone's own store and its outbox say. */
export const local = {
  unreachable: "The table cannot be reached; your notes are kept on this phone.",
  oddAnswer: (status: number): string =>
    `The table answered in a way that was not understood (${status}); your notes are kept on this phone.`,
  notAllKept: "The table has not taken all notes yet; they are kept on this phone.",
  fileTitle: "cupwright-notes",
};
