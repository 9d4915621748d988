#!/usr/bin/env node
// The command's first step, in plain old JavaScript. It runs the built command line (dist/cli) where that is newer than every source
// it was made from, which starts in a third of the time, and else the sources themselves; app/require-node.cjs checks the Node.
var fs = require("fs");
var path = require("path");
var project = path.join(__dirname, "..", "..");
var built = path.join(project, "dist", "cli", "main.js");

function newestUnder(folder) {
  return fs.readdirSync(folder, { withFileTypes: true }).reduce(function (newest, entry) {
    var place = path.join(folder, entry.name);
    return Math.max(newest, entry.isDirectory() ? newestUnder(place) : fs.statSync(place).mtimeMs);
  }, 0);
}

function isFresh() {
  try {
    var made = fs.statSync(built).mtimeMs;
    return ["app", "core"].every(function (folder) {
      return newestUnder(path.join(project, folder)) < made;
    });
  } catch (error) {
    return false;
  }
}

// Packed (npm pack), the built command line comes without its sources.
var source = path.join(__dirname, "main.ts");
process.argv.splice(2, 0, isFresh() || !fs.existsSync(source) ? built : source);
require("../require-node.cjs");
