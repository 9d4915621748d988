// Plain old JavaScript on purpose: it must still run, and say what to do, where the Node is too old for everything else.
// Usage: node app/require-node.cjs SCRIPT [ARGUMENT …]
var wanted = 24;
var found = parseInt(process.versions.node, 10);
if (found < wanted) {
  console.error(
    "Boilbench needs Node " +
      wanted +
      " or newer; this is Node " +
      process.versions.node +
      ".\n" +
      "Run `npm ci` in the project folder first: it installs the right Node beside the program, and every `npm run` uses it.",
  );
  process.exit(2);
}
// What was compiled once is kept in the system's folder for temporary files: the next start takes half the time.
var loader = require("module");
if (loader.enableCompileCache) loader.enableCompileCache();
var path = require("path");
var url = require("url");
var script = path.resolve(process.argv[2]);
process.argv.splice(1, 2, script);
import(url.pathToFileURL(script).href).catch(function (error) {
  console.error(error);
  process.exit(1);
});
