// Part of the service worker: what another program shares with this one is put
// where the page finds it, and the page is opened. No server sees any of it.
const SHARED_CACHE = "halfsplit-shared";
// The largest document, as in core/panel; the page refuses what is larger.
const SHARED_BYTES = 16 * 1024 * 1024;

addEventListener("fetch", (event) => {
  const { method, url } = event.request;
  if (method !== "POST" || url !== new URL("shared", registration.scope).href) return;
  event.stopImmediatePropagation();
  event.respondWith(takeShared(event.request));
});

async function takeShared(request) {
  let id = "lost";
  try {
    const form = await request.formData();
    const file = form.getAll("file").find((one) => one instanceof File && one.size > 0);
    const text = [form.get("text"), form.get("url")].filter((one) => typeof one === "string" && one !== "").join("\n");
    if (file && file.size > SHARED_BYTES) id = "too-large";
    else if (file || text) {
      id = crypto.randomUUID();
      const headers = { "X-Name": encodeURIComponent(file ? file.name : "") };
      await (await caches.open(SHARED_CACHE)).put(`./shared/${id}`, new Response(file || text, { headers }));
    }
  } catch {
    // The page says that nothing arrived.
  }
  return Response.redirect(`./#/shared/${id}`, 303);
}
