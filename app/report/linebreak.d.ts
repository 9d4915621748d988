/** The part of linebreak that the report uses; the package brings no types. */
declare module "linebreak" {
  export default class LineBreaker {
    constructor(text: string);
    /** The next place where a line may end (Unicode Standard Annex 14); null after the last. */
    nextBreak(): { readonly position: number; readonly required: boolean } | null;
  }
}
