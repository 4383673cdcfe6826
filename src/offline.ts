/**
 * The service worker: keeps the program of one version in the browser, whole or not at all, and answers from there, so that it
 * starts without a network. A newer version waits until the pages of the older one are gone or a page asks for it. The build
 * puts in the files and their version.
 */

interface Waiting extends Event {
  waitUntil(work: Promise<unknown>): void;
}

interface PendingRequest extends Waiting {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}

interface WorkerScope {
  readonly registration: { readonly scope: string };
  addEventListener(type: "install" | "activate", listener: (event: Waiting) => void): void;
  addEventListener(type: "fetch", listener: (event: PendingRequest) => void): void;
  addEventListener(type: "message", listener: (event: MessageEvent<unknown>) => void): void;
  skipWaiting(): Promise<void>;
}

declare const self: WorkerScope;

const FILES = "__FILES__" as unknown as readonly string[];
const FAMILY = "lopeline-program-";
const NAME = FAMILY + "__VERSION__";
const POLICY = "__POLICY__";

self.addEventListener("install", (event) => {
  event.waitUntil(keep());
});

self.addEventListener("activate", (event) => {
  event.waitUntil(forgetOlder());
});

self.addEventListener("message", ({ data }) => {
  if (data === "start") void self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(self.registration.scope)) return;
  event.respondWith(answer(request));
});

async function keep(): Promise<void> {
  const cache = await caches.open(NAME);
  await cache.addAll(FILES.map((file) => new Request(file, { cache: "no-cache" })));
}

async function forgetOlder(): Promise<void> {
  const names = await caches.keys();
  await Promise.all(
    names.filter((name) => name.startsWith(FAMILY) && name !== NAME).map((name) => caches.delete(name)),
  );
}

/** What is kept under the address, questions behind it left aside; any page is the one page. */
async function answer(request: Request): Promise<Response> {
  const cache = await caches.open(NAME);
  const address = request.mode === "navigate" ? self.registration.scope : request.url;
  const kept = await cache.match(address, { ignoreSearch: true });
  return kept ? locked(kept) : fetch(request);
}

/** With the policy in its head, which binds workers too: what stands in the page's text does not reach them. */
function locked(kept: Response): Response {
  const headers = new Headers(kept.headers);
  headers.set("Content-Security-Policy", POLICY);
  return new Response(kept.body, { status: kept.status, statusText: kept.statusText, headers });
}

export {};
