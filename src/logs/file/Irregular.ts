/**
 * Thrown inside where a large file has something in it that can be judged only with all of its rows in memory: rows out
 * of order, a date that settles late what the first rows left open. Such a file is then read that way.
 */
export class Irregular extends Error {}
