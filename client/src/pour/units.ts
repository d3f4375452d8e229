/* Units as people like them. All is computed and sent in metric ones; these are only shown, by exact factors. */

export const GRAMS_PER_OUNCE = 28.349523125;
/** of the United States; a British one holds 28.4 mL */
export const ML_PER_FLUID_OUNCE = 29.5735295625;

export const ounces = (grams: number): number => grams / GRAMS_PER_OUNCE;
export const fluidOunces = (ml: number): number => ml / ML_PER_FLUID_OUNCE;
export const fahrenheit = (celsius: number): number => (celsius * 9) / 5 + 32;
export const celsius = (fahrenheit: number): number => ((fahrenheit - 32) * 5) / 9;
