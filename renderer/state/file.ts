/** A file in the form in which the contract carries it. */
export interface CarriedFile {
  readonly name: string;
  readonly contentBase64: string;
}

/** Longest file name that the contract takes. */
const nameLimit = 500;

/** Bytes as base64, in pieces small enough for a call's arguments. */
export function base64Of(bytes: Uint8Array): string {
  const piece = 0x8000;
  let text = "";
  for (let at = 0; at < bytes.length; at += piece) text += String.fromCharCode(...bytes.subarray(at, at + piece));
  return btoa(text);
}

export function bytesOf(base64: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
}

export async function carry(file: File): Promise<CarriedFile> {
  return { name: file.name.slice(-nameLimit), contentBase64: base64Of(new Uint8Array(await file.arrayBuffer())) };
}

/** Hands a file to the browser's or the window's own way of saving. */
export function handOver(fileName: string, mediaType: string, contentBase64: string): void {
  const address = URL.createObjectURL(new Blob([bytesOf(contentBase64)], { type: mediaType }));
  const link = document.createElement("a");
  link.href = address;
  link.download = fileName;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
