#!/usr/bin/env node
// The command's first step, in plain old JavaScript: app/require-node.cjs checks the Node and then runs the command line.
var path = require("path");
process.argv.splice(2, 0, path.join(__dirname, "main.ts"));
require("../require-node.cjs");
