/** Thrown within a range that can not be read apart from what comes before it. */
export class RangeLost extends Error {}
