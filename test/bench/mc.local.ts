import { readFileSync } from "node:fs";
import { readReadings, readSettings, readTable } from "../../app/import/index.ts";
import { runModel } from "../../core/uncertainty/run-model.ts";
import { monteCarlo } from "../../core/uncertainty/monte-carlo/monte-carlo.ts";
import { runTrials } from "../../core/uncertainty/monte-carlo/run-trials.ts";
import { summarise } from "../../core/uncertainty/monte-carlo/summarise.ts";
import { blockEvaluator } from "../../core/uncertainty/monte-carlo/block-evaluator.ts";
import { usedSteps } from "../../core/uncertainty/monte-carlo/used-steps.ts";
import { firstOrder } from "../../core/uncertainty/first-order.ts";
import { atOnce } from "../../core/numeric/in-steps.ts";
const dir="sample-data/good/";
const settings = readSettings(readFileSync(dir+"tall-kettle-stove.settings.json"), "s.json").settings!;
const { study } = readReadings({ table: readTable(readFileSync(dir+"tall-kettle-stove.csv"), "r.csv"), settings });
const run = study!.runs.find(r=>r.phases.length===3)!;
const model = runModel(run, study!.settings);
const u = usedSteps(model);
console.log("inputs",model.inputs.length,"sources",model.sources.length,"outputs",model.outputs.length,"tape",model.tape.length,"used",u.order.length);
const kinds=[0,0,0,0,0,0,0,0,0]; for(const n of u.order) kinds[model.tape.steps[n]!]!++; console.log("const,in,add,sub,mul,div,pow,exp,through",kinds.join());
const dist:Record<string,number>={}; for (const s of model.sources) dist[s.distribution.kind]=(dist[s.distribution.kind]??0)+1; console.log(dist);
const n=Number(process.argv[2]??1e6);
const request={trials:n,seed:1,confidence:.95};
for(let r=0;r<4;r++){
 let t=performance.now(); const e=blockEvaluator(model,1); for(let b=0;b<n/1000;b++) e.evaluate(b,()=>{}); const te=performance.now()-t;
 t=performance.now(); const part=atOnce(runTrials(model,request,{from:0,to:n})); const tr=performance.now()-t;
 t=performance.now(); const out=summarise(model,request,[part]); const ts=performance.now()-t;
 console.log("places",e.varying,"evaluate",te.toFixed(),"run",tr.toFixed(),"summarise",ts.toFixed(),"total",(tr+ts).toFixed(), "rss",(process.memoryUsage().rss/2**20).toFixed(), "max", (process.resourceUsage().maxRSS/1024).toFixed());
 if(r===3){const f=firstOrder(model); for(const k of [0,3,7,20,40,60]) console.log(model.keys[k],f[k]!.value,f[k]!.standardUncertainty,JSON.stringify(out[k]));}
}
