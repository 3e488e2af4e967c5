/** One of the ways in which something can be read, and the options of the command line that settle on it. */
export interface Choice {
  /** The reading in words. */
  readonly words: string;
  /** Names of options without their dashes, and their values: `{ column: 'power=3' }`. */
  readonly options: Readonly<Record<string, string>>;
}
