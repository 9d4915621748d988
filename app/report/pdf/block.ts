/** A part of the report that has been laid out and waits for its place. */
export interface Block {
  /** Distance to the block before, in points. */
  readonly before: number;
  /** Height that must be free where it begins, in points, so that a heading above it is not left alone. */
  readonly leading: number;
  place(): void;
}
