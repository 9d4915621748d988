import { readFileSync } from "node:fs";
import { readReadings, readSettings, readTable } from "../../app/import/index.ts";
import { MonteCarloDesk } from "../../app/service/uncertainty/monte-carlo-desk.ts";
const dir="sample-data/good/";
const settings = readSettings(readFileSync(dir+"tall-kettle-stove.settings.json"), "s.json").settings!;
const { study } = readReadings({ table: readTable(readFileSync(dir+"tall-kettle-stove.csv"), "r.csv"), settings });
const run = study!.runs.find(r=>r.phases.length===3)!;
const req=(trials:number,d:null|1|2=null)=>({run,settings:study!.settings,ranges:new Map(),trials,seed:1,confidence:.95,adaptiveDigits:d});
let first="";
console.log("base",(process.memoryUsage().rss/2**20).toFixed());for(const n of (process.argv[2]??"1,2,3").split(",").map(Number)){ const desk=new MonteCarloDesk(n);
 for(let r=0;r<3;r++){ const t=performance.now(); let p=0; const out=await desk.run(req(1e6),{onProgress:x=>{p++;}}); console.log(n,"workers",(performance.now()-t).toFixed(),"progress",p,"rss",(process.memoryUsage().rss/2**20).toFixed());
  const j=JSON.stringify([...out.outputs]); if(first==="") first=j; if(j!==first) console.log("DIFFERENT"); }
 const c=new AbortController(); const pr=desk.run(req(1e6),{signal:c.signal}); setTimeout(()=>c.abort(new Error("x")),200); const t=performance.now(); await pr.catch(e=>console.log("aborted",e.message,(performance.now()-t).toFixed()));
 const t2=performance.now(); await desk.run(req(1000)); console.log("next after abort",(performance.now()-t2).toFixed());
 const t3=performance.now(); const a=await desk.run(req(1e6,1)); console.log("adaptive",a.trials,a.stable!.size,(performance.now()-t3).toFixed());
 const t4=performance.now(); const b=await desk.run(req(1e6,2)); console.log("adaptive2",b.trials,b.stable!.size,(performance.now()-t4).toFixed());
 const t5=performance.now(); await Promise.all(Array.from({length:10},()=>desk.run(req(2e5)))); console.log("10 runs of 2e5",(performance.now()-t5).toFixed(), "max", (process.resourceUsage().maxRSS/1024).toFixed());
 await desk.close();
}
