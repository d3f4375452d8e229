/* The words of "How many?": the answers themselves come from the server as sentences. */

export const sizeWords = {
  title: "How many?",
  lead: "What a question needs before it is asked, and how sure an answer is.",
  question: "What do you want to know?",
  questions: {
    difference: { label: "Points", detail: "How many tasters and bowls show a difference of so many points?" },
    test: { label: "Told apart", detail: "How many tasters show that two coffees can be told apart at all?" },
    result: { label: "How many were right", detail: "A test is done: could it have been luck?" },
  },
  method: "How it is asked",
  methods: {
    triangle: { label: "Triangle", detail: "Three cups, two alike: which is the odd one?" },
    "duo-trio": { label: "Duo-trio", detail: "Which of two cups is like the one that is shown?" },
    "2-afc": { label: "2-AFC", detail: "Which of two cups has more of something named?" },
    "3-afc": { label: "3-AFC", detail: "Which of three cups, two alike, has more of something named?" },
    paired: { label: "Paired", detail: "Which of two cups has more, or is liked better, either way round?" },
    "two-out-of-five": { label: "Two out of five", detail: "Which two of five cups are of the other coffee?" },
  },
  points: "Difference that matters",
  pointsUnit: "points",
  tasterSpread: "Spread, taster by coffee",
  tasterSpreadHint: "How much tasters differ in taking to a coffee. Empty: 1, an assumption.",
  bowlSpread: "Spread, bowl to bowl",
  bowlSpreadHint: "One taster, one coffee, another bowl. Empty: 0.9, an assumption.",
  canTell: "Tasters who can tell",
  power: "Found so often",
  powerHint: "The chance to find the difference if it is there.",
  right: "Right answers",
  of: "Of how many",
  percent: "%",
  answer: "Answer",
};
