import { createServer, type Server } from 'node:http';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { extname, join, resolve } from 'node:path';

const DIST = resolve(import.meta.dirname, '../../ui/dist');
const TYPES: Record<string, string> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.wasm': 'application/wasm',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.webmanifest': 'application/manifest+json',
};

/** The built app served as any host of files does, below a path of its own; it can be shut down for good, and can come
 * to have a newer app. */
export class OwnServer {
  #server: Server;
  #newer = false;
  requests = 0;
  #at = '';

  private constructor(
    server: Server,
    readonly path: string,
  ) {
    this.#server = server;
  }

  static async start(path: string): Promise<OwnServer> {
    const server = createServer();
    const own = new OwnServer(server, path);
    server.on('request', (request, response) => {
      own.requests += 1;
      const body = own.#body(new URL(request.url ?? '/', 'http://host').pathname);
      response.statusCode = body ? 200 : 404;
      if (body) response.setHeader('content-type', body.type);
      response.end(body?.bytes);
    });
    await new Promise<void>((listening) => server.listen(0, 'localhost', listening));
    const at = server.address();
    if (at === null || typeof at === 'string') throw new Error('the server has no port');
    own.#at = `http://localhost:${at.port}${path}`;
    return own;
  }

  get address(): string {
    return this.#at;
  }

  /** From now on there is a newer app: its page says so, and its service worker knows of another page. */
  becomeNewer(): void {
    this.#newer = true;
  }

  async stop(): Promise<void> {
    this.#server.closeAllConnections();
    await new Promise((closed) => this.#server.close(closed));
  }

  #body(pathname: string): { bytes: Buffer; type: string } | null {
    if (!pathname.startsWith(this.path)) return null;
    const file = join(DIST, pathname.slice(this.path.length) || 'index.html');
    if (!file.startsWith(DIST) || !existsSync(file) || !statSync(file).isFile()) return null;
    const bytes = readFileSync(file);
    return { bytes: this.#newer ? newer(file, bytes) : bytes, type: TYPES[extname(file)] ?? 'application/octet-stream' };
  }
}

function newer(file: string, bytes: Buffer): Buffer {
  const text = () => bytes.toString('utf8');
  if (file.endsWith('index.html')) return Buffer.from(text().replace('<html', '<html data-newer="yes"'));
  if (!file.endsWith('sw.js')) return bytes;
  const known = '{url:"index.html",revision:"';
  if (!text().includes(known)) throw new Error('sw.js names its index.html otherwise than this test thinks');
  return Buffer.from(text().replace(known, `${known}newer`));
}
