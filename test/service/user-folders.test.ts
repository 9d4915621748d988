import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { userFolders } from "../../app/service/index.ts";

/** Linux: XDG Base Directory Specification 0.8; Windows: the known folder LocalAppData; macOS: Application Support (all from memory). */
describe("a user's folders", () => {
  const linux = { HOME: "/home/ama" };
  it("studies lie in the documents where there is such a folder, else in the home", () => {
    expect(userFolders("linux", linux, (path) => path === join("/home/ama", "Documents")).studies).toBe(
      join("/home/ama", "Documents", "Boilbench"),
    );
    expect(userFolders("linux", linux, () => false).studies).toBe(join("/home/ama", "Boilbench"));
  });

  it("the program's own data lie where each system keeps them", () => {
    const data = (platform: string, environment: Record<string, string>) =>
      userFolders(platform, environment, () => false).data;
    expect(data("linux", linux)).toBe(join("/home/ama", ".local", "share", "boilbench"));
    expect(data("linux", { ...linux, XDG_DATA_HOME: "/data" })).toBe(join("/data", "boilbench"));
    expect(data("darwin", linux)).toBe(join("/home/ama", "Library", "Application Support", "Boilbench", "Data"));
    expect(data("win32", { USERPROFILE: "/users/ama", LOCALAPPDATA: "/users/ama/local" })).toBe(
      join("/users/ama/local", "Boilbench", "Data"),
    );
  });

  it("are where the environment says, if it does", () => {
    const environment = { ...linux, BOILBENCH_STUDIES_FOLDER: "/s", BOILBENCH_DATA_FOLDER: "/d" };
    expect(userFolders("linux", environment)).toEqual({ studies: "/s", data: "/d" });
  });
});
