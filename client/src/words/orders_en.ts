/* Words around the serving orders; how even they are comes from the server as sentences. */

export const orderWords = {
  title: "Serving orders",
};
