/** The part of fontkit that the report uses; the package brings no types. */
declare module "fontkit" {
  export interface Font {
    readonly unitsPerEm: number;
    readonly ascent: number;
    readonly descent: number;
    hasGlyphForCodePoint(codePoint: number): boolean;
    layout(text: string, features?: readonly string[]): GlyphRun;
  }
  /** Glyphs in the order in which they are drawn; advances and offsets in font units. */
  export interface GlyphRun {
    readonly glyphs: readonly unknown[];
    readonly positions: readonly object[];
    readonly advanceWidth: number;
  }
  export function create(bytes: Uint8Array): Font;
}
