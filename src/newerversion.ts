/**
 * Keeps the program in this browser for a start without network, and tells of a newer version: `ready` is given what starts
 * it, which loads the page again. Nothing happens where the browser keeps no programs.
 */
export async function keepProgram(ready: (start: () => void) => void): Promise<void> {
  if (!("serviceWorker" in navigator)) return;
  const { serviceWorker } = navigator;
  let registration: ServiceWorkerRegistration;
  try {
    registration = await serviceWorker.register("offline.js");
  } catch {
    // A private window, a file opened from disk: the program runs as it is, and asks the network the next time.
    return;
  }
  const tell = (waiting: ServiceWorker): void =>
    ready(() => {
      serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
      waiting.postMessage("start");
    });
  // The first version of all is no newer one.
  if (registration.waiting && serviceWorker.controller) tell(registration.waiting);
  registration.addEventListener("updatefound", () => {
    const coming = registration.installing;
    coming?.addEventListener("statechange", () => {
      if (coming.state === "installed" && serviceWorker.controller) tell(coming);
    });
  });
}
