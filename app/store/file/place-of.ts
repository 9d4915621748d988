export type Place = "local" | "network" | "synced";
export interface PlaceFacts {
  /** Type of the file system as statfs gives it; null where unknown. */
  readonly fileSystem: number | null;
  readonly platform: NodeJS.Platform;
}
export function placeOf(_path: string, _facts: PlaceFacts): Place {
  return "local";
}
