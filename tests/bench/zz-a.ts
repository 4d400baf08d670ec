import { ArchiveWorld, archiveSize, ownerIds } from '/work/main/tests/bench/archive-world'
import { CoverageEngine } from '#lib/coverage/engine'
const t0=performance.now()
const w=new ArchiveWorld(archiveSize); console.log('world',performance.now()-t0, w.listCount,w.keyLineCount)
const t1=performance.now(); w.eachList(()=>{}); console.log('draw',performance.now()-t1)
const t2=performance.now(); const index=w.buildIndex(); console.log('index',performance.now()-t2, index.packed.need.length, process.memoryUsage().rss/1e6)
const threads=w.threads.map(({threadId,line})=>({threadId,lotsMatter:line.lotsMatter,putUpStrandTenths:line.putUpStrandTenths,standInThreadIds:[]}))
const owners=[ownerIds[0]]
const stock=()=>threads.map(({threadId})=>w.freeOf(threadId,owners))
const t3=performance.now(); const e=new CoverageEngine({index,threads,stock:stock()}); console.log('engine',performance.now()-t3)
const ts:number[]=[],ts2:number[]=[]
for(let i=0;i<15;i++){const a=performance.now(); const s=stock(); const b=performance.now(); e.setStock(s); const c=performance.now(); ts.push(b-a);ts2.push(c-b)}
console.log('stock',Math.min(...ts),ts.sort((a,b)=>a-b)[7],'all',Math.min(...ts2),ts2.sort((a,b)=>a-b)[7])
// status histogram
import { rankAt, missingAt } from '#lib/coverage/answer-words'
const h=new Array(8).fill(0); let miss=0; for(let r=0;r<index.packed.listIds.length;r++){h[rankAt(e.words,r)]++;miss+=missingAt(e.words,r)}
console.log(h, miss/index.packed.need.length)
const tt:number[]=[]
for(let k=0;k<4;k++){const a=performance.now(); let n=0
for(const {threadId,line} of w.threads){const bs=w.batches.get(threadId); const b=bs?.find(b=>b.ownerId===owners[0]); if(b){b.wholePutUps++; e.setThreadStock(threadId,w.freeOf(threadId,owners)); b.wholePutUps--; e.setThreadStock(threadId,w.freeOf(threadId,owners)); n+=2}
 else {e.setThreadStock(threadId,{...w.freeOf(threadId,owners),freeStrandTenths:line.putUpStrandTenths,ownedStrandTenths:line.putUpStrandTenths,lots:[{lot:'9',ownedStrandTenths:line.putUpStrandTenths,freeStrandTenths:line.putUpStrandTenths,batchIds:['x']}]}); e.setThreadStock(threadId,w.freeOf(threadId,owners)); n+=2}}
tt.push((performance.now()-a)/n*1000)}
console.log('change µs',tt)
