import { it } from 'vitest';
import { HeatledgerError } from '../../src/errors/index.js';
import { readExport } from '../../src/logs/index.js';
import { randomFrom } from './generated.js';
import { kinds, mutantOf } from './mutants/mutants.js';
import { originals } from './mutants/Original.js';
import { expectSane, outcomeOf } from './mutants/outcome.js';
import { plainRows } from './mutants/plainRows.js';
import { evidenceIn } from './mutants/evidence.js';
import { mkdirSync, writeFileSync } from 'node:fs';
const skeleton = (w: string) => w.replace(/[\d.]+/g, '#');
it('probe', { timeout: 600000 }, () => {
  for (const o of originals) { const p = plainRows(o.bytes, o.mapping); if (!p) console.log('not plain', o.name); else { const e = evidenceIn(p); if (e.length) console.log('clean has', o.name, e); } }
  const random = randomFrom(Number(process.env.SEED ?? 1));
  const names = process.env.KIND ? [process.env.KIND] : Object.keys(kinds);
  const t: any = {};
  mkdirSync('/tmp/mut', { recursive: true });
  for (let i = 0; i < Number(process.env.N ?? 1000); i++) {
    const { kind, original, bytes } = mutantOf(names[i % names.length]!, random);
    const c = (t[kind] ??= { refused: 0, same: 0, warned: 0, undetectable: 0, silent: 0, bad: 0 });
    try {
      const log = readExport(bytes, original.options);
      const o = outcomeOf(log); const clean = original.clean;
      const ch = (a: number|null, b: number|null, ua: number, ub: number) => (a === null) !== (b === null) || (a !== null && Math.abs(a - b!) > 2 * Math.hypot(ua, ub) + 1e-9);
      const e = ch(o.energyWh, clean.energyWh, o.energyUWh, clean.energyUWh), k = ch(o.counterWh, clean.counterWh, o.counterUWh, clean.counterUWh);
      if (!e && !k) { c.same++; continue; }
      const had = clean.warnings.map(skeleton);
      const fresh = o.warnings.filter((w) => { const at = had.indexOf(skeleton(w)); if (at < 0) return true; had.splice(at, 1); return false; });
      if (fresh.length) { c.warned++; continue; }
      const p = plainRows(bytes, log.mapping);
      const ev = p ? evidenceIn(p) : [];
      const what = ev.length ? 'silent' : 'undetectable';
      c[what]++;
      if (process.env.SHOW === what || process.env.SHOW === 'all') { const f = `/tmp/mut/${process.env.SEED ?? 1}-${i}.csv`; writeFileSync(f, bytes);
      console.log(what, f, kind, '|', original.name, '|', p ? '' : 'NOT PLAIN', ev.join(', '), '| E', clean.energyWh, '->', o.energyWh, 'u', o.energyUWh, clean.energyUWh, '| C', clean.counterWh, '->', o.counterWh, JSON.stringify(o.described.filter((d) => !clean.described.includes(d)))); }
    }
    catch (e: any) {
      if (e instanceof HeatledgerError) { c.refused++; try { expectSane(e) } catch (x: any) { c.bad++; console.log('INSANE', kind, original.name, e.code, e.message, e.place) } }
      else { c.bad++; console.log('BAD', i, kind, original.name, e.message.slice(0, 300), e.stack.split('\n').filter((l: string)=>l.includes('src/logs')).slice(0,3)); writeFileSync('/tmp/bad' + i + '.csv', bytes); }
    }
  }
  console.table(t);
});
