/* The words of protocols, deviations and limits. */

export const protocolWords = {
  title: "Protocol",
  hint: "How the table is prepared and when it is tasted. Choosing one fills in its ratio, bowls and temperatures.",
  own: "your own",
  asks: "What it asks",
  source: "Source",

  held: "Held against the protocol",
  keeps: "The plan keeps to its protocol as far as it tells.",
  unknown: (count: number): string => `What the plan does not tell (${count})`,
  people: "For the people at the table",
  fine: "Nothing here goes beyond a limit.",
  all: (count: number): string => `All cautions (${count})`,
};
