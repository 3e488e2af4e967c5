import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { atomicWrite, makeFolder } from '../../src/workbook/index.js';
import { emptyFolder, top } from '../support/folders.js';

describe('a file is written whole or not at all', () => {
  it('text or bytes, in folders that are made on the way', () => {
    const dir = emptyFolder();
    const file = join(dir, 'a', 'b', 'c.txt');
    atomicWrite(file, 'Öl\n');
    expect(readFileSync(file, 'utf8')).toBe('Öl\n');
    atomicWrite(file, Uint8Array.of(0, 255));
    expect([...readFileSync(file)]).toEqual([0, 255]);
    expect(readdirSync(join(dir, 'a', 'b'))).toEqual(['c.txt']);
    makeFolder(join(dir, 'a', 'b'));
    expect(statSync(join(dir, 'a', 'b')).isDirectory()).toBe(true);
  });

  it('the old one stays when the new one cannot be written to its end', () => {
    const dir = emptyFolder();
    const file = join(dir, 'c.txt');
    atomicWrite(file, 'old');
    // Bytes that the system refuses stand for a disk that does.
    expect(() => atomicWrite(file, { length: 5 } as unknown as Uint8Array)).toThrow();
    expect(readFileSync(file, 'utf8')).toBe('old');
    expect(readdirSync(dir)).toEqual(['c.txt']);
  });

  it('what stands in its place stays when it cannot be put there', () => {
    const dir = emptyFolder();
    mkdirSync(join(dir, 'c.txt'));
    writeFileSync(join(dir, 'c.txt', 'inside'), 'old');
    expect(() => atomicWrite(join(dir, 'c.txt'), 'new')).toThrow();
    expect(readFileSync(join(dir, 'c.txt', 'inside'), 'utf8')).toBe('old');
    expect(readdirSync(dir)).toEqual(['c.txt']);
  });

  it('the old one stays when the process dies over the new one', () => {
    const file = join(emptyFolder(), 'c.txt');
    atomicWrite(file, 'old');
    const module = JSON.stringify(join(top, 'dist/workbook/index.js'));
    const code = `import { atomicWrite } from ${module}; atomicWrite(process.argv[1], 'new'.repeat(1e6)); console.log('through');`;
    // The system ends a process that writes more than the limit: in the midst of the temporary file.
    const writing = (limit: string) => {
      const limited = `ulimit -f ${limit}; exec '${process.execPath}' --input-type=module -e "$1" "$2"`;
      return spawnSync('/bin/sh', ['-c', limited, 'sh', code, file], { encoding: 'utf8' });
    };
    const ended = writing('100');
    expect(ended.stdout).not.toContain('through');
    expect(ended.status).not.toBe(0);
    expect(readFileSync(file, 'utf8')).toBe('old');
    expect(writing('unlimited').stdout).toContain('through');
    expect(readFileSync(file, 'utf8')).toHaveLength(3e6);
  });
});
