import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { request, type IncomingMessage } from 'node:http';
import { request as secureRequest } from 'node:https';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { brotliDecompressSync, gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { serve, type Served } from '../../src/cli/serve';
import { openssl } from '../helpers/programs';

interface Answer {
  readonly status: number;
  readonly headers: Record<string, string | string[] | undefined>;
  readonly body: Buffer;
}

const program = openssl();

describe('the local server', () => {
  const folder = mkdtempSync(join(tmpdir(), 'tarebook-serve-'));
  const site = join(folder, 'site');
  const big = `${'const rivet = 1;\n'.repeat(2000)}`;
  let served: Served;

  beforeAll(async () => {
    mkdirSync(join(site, 'deep'), { recursive: true });
    mkdirSync(join(folder, 'samples'));
    writeFileSync(join(site, 'index.html'), '<!doctype html>bench');
    writeFileSync(join(site, 'deep', 'index.html'), 'deep');
    writeFileSync(join(site, 'main.0123abcd.js'), big);
    writeFileSync(join(site, '.hidden'), 'hidden');
    writeFileSync(join(folder, 'secret.txt'), 'secret');
    writeFileSync(join(folder, 'samples', 'a b.xlsx'), 'sample');
    symlinkSync(join(folder, 'secret.txt'), join(site, 'link.txt'));
    served = await serve({
      port: 0,
      mounts: [
        { prefix: '/', folder: site },
        { prefix: '/samples/', folder: join(folder, 'samples') },
      ],
    });
  });
  afterAll(async () => {
    await served.close();
    rmSync(folder, { recursive: true, force: true });
  });

  const get = (path: string, headers: Record<string, string> = {}, method = 'GET'): Promise<Answer> =>
    new Promise((resolve, reject) => {
      const asked = request(
        {
          host: '127.0.0.1',
          port: served.port,
          path,
          method,
          headers: { host: `127.0.0.1:${served.port}`, ...headers },
        },
        (answer) => {
          const chunks: Buffer[] = [];
          answer.on('data', (chunk: Buffer) => chunks.push(chunk));
          answer.on('end', () =>
            resolve({ status: answer.statusCode!, headers: answer.headers, body: Buffer.concat(chunks) }),
          );
        },
      );
      asked.on('error', reject);
      asked.end();
    });

  it('serves files, folders by their index, and other mounts', async () => {
    expect((await get('/')).body.toString()).toContain('bench');
    expect((await get('/deep/')).body.toString()).toBe('deep');
    expect((await get('/samples/a%20b.xlsx?x=1')).body.toString()).toBe('sample');
    expect((await get('/')).headers['content-type']).toBe('text/html; charset=utf-8');
  });

  it('answers on this computer’s own address only', () => {
    expect(served.address).toBe(`http://127.0.0.1:${served.port}/`);
  });

  it('turns away other host names', async () => {
    for (const host of ['evil.example', `evil.example:${served.port}`, '127.0.0.1', `127.0.0.1:${served.port + 1}`])
      expect((await get('/', { host })).status).toBe(421);
    expect((await get('/', { host: `localhost:${served.port}` })).status).toBe(200);
  });

  it('takes no other method than GET and HEAD', async () => {
    for (const method of ['POST', 'PUT', 'DELETE', 'OPTIONS']) expect((await get('/', {}, method)).status).toBe(405);
    const head = await get('/', {}, 'HEAD');
    expect(head.status).toBe(200);
    expect(head.body).toHaveLength(0);
  });

  it('lets nobody out of its folders', async () => {
    const paths = [
      '/../secret.txt',
      '/%2e%2e/secret.txt',
      '/..%2fsecret.txt',
      '/deep/../../secret.txt',
      '/..%5csecret.txt',
      '/link.txt',
      '/.hidden',
      '/%00',
      '/%',
      '//etc/passwd',
      '/samples/../secret.txt',
      '/C:/secret.txt',
      '/deep',
      '/nothing',
    ];
    for (const path of paths) {
      const answer = await get(path);
      expect(`${path} ${answer.status}`).toBe(`${path} 404`);
      expect(answer.body.toString()).not.toContain('secret\n');
    }
  });

  it('says with every answer what the page may load', async () => {
    for (const answer of [await get('/'), await get('/nothing'), await get('/', { host: 'evil.example' })]) {
      const policy = String(answer.headers['content-security-policy']);
      expect(policy).toContain("default-src 'none'");
      expect(policy).toContain("script-src 'self' 'wasm-unsafe-eval'");
      expect(policy).not.toMatch(/script-src[^;]*'unsafe-(inline|eval)'|https?:|\*/);
      expect(answer.headers['x-content-type-options']).toBe('nosniff');
    }
  });

  it('sends what is unchanged only once, and keeps hashed names for good', async () => {
    const first = await get('/main.0123abcd.js');
    expect(first.headers['cache-control']).toContain('immutable');
    const again = await get('/main.0123abcd.js', { 'if-none-match': String(first.headers['etag']) });
    expect(again.status).toBe(304);
    expect(again.body).toHaveLength(0);
    expect((await get('/')).headers['cache-control']).toBe('no-cache');
    writeFileSync(join(site, 'index.html'), '<!doctype html>bench, changed');
    expect((await get('/')).body.toString()).toContain('changed');
  });

  it('compresses large files for those who take it', async () => {
    await expect
      .poll(
        async () =>
          (await get('/main.0123abcd.js', { 'accept-encoding': 'gzip, deflate, br' })).headers['content-encoding'],
      )
      .toBe('br');
    const small = await get('/main.0123abcd.js', { 'accept-encoding': 'br' });
    expect(small.body.length).toBeLessThan(big.length / 10);
    expect(brotliDecompressSync(small.body).toString()).toBe(big);
    expect(gunzipSync((await get('/main.0123abcd.js', { 'accept-encoding': 'gzip' })).body).toString()).toBe(big);
    expect((await get('/main.0123abcd.js')).body.toString()).toBe(big);
  });

  it('takes the next port where one is taken', async () => {
    const taken = createServer();
    await new Promise<void>((resolve) => taken.listen(0, '127.0.0.1', resolve));
    const { port } = taken.address() as { port: number };
    const other = await serve({ port, mounts: [] });
    expect(other.port).toBeGreaterThan(port);
    await other.close();
    taken.close();
  });

  it('says in one line that the last port is taken', async () => {
    const taken = createServer();
    // Where another program has it, it is taken all the same.
    await new Promise<void>((resolve) => taken.once('error', () => resolve()).listen(65_535, '127.0.0.1', resolve));
    await expect(serve({ port: 65_535, mounts: [] })).rejects.toThrow(
      /^Port 65535 is taken by other programs\. Give another with --port; --port 0 takes any that is free\.$/,
    );
    taken.close();
  });

  it('takes the port that it is told or none', async () => {
    await expect(serve({ port: served.port, exactly: true, mounts: [] })).rejects.toThrow(
      new RegExp(`^Port ${served.port} is taken by other programs\\.`),
    );
  });

  it.runIf(program)('speaks https with a certificate, and gives the headers that it is told', async () => {
    const [key, cert] = [join(folder, 'key.pem'), join(folder, 'cert.pem')];
    execFileSync(
      program!,
      ['req', '-x509', '-nodes', '-newkey', 'ec', '-pkeyopt', 'ec_paramgen_curve:prime256v1', '-days', '2'].concat([
        '-subj',
        '/CN=localhost',
        '-addext',
        'subjectAltName=DNS:localhost',
        '-keyout',
        key,
        '-out',
        cert,
      ]),
      { stdio: 'ignore' },
    );
    const secure = await serve({
      port: 0,
      mounts: [{ prefix: '/', folder: site }],
      certificate: { key: readFileSync(key), cert: readFileSync(cert) },
      headers: { 'Access-Control-Allow-Origin': '*' },
    });
    const answer = await new Promise<IncomingMessage>((resolve, reject) => {
      const { port } = secure;
      const headers = { host: `localhost:${port}` };
      secureRequest({
        host: '127.0.0.1',
        servername: 'localhost',
        port,
        path: '/deep/',
        ca: readFileSync(cert),
        headers,
      })
        .on('response', (response) => resolve(response.resume()))
        .on('error', reject)
        .end();
    });
    expect(answer.statusCode).toBe(200);
    expect(answer.headers['access-control-allow-origin']).toBe('*');
    expect(answer.headers).not.toHaveProperty('content-security-policy');
    await secure.close();
  });
});
