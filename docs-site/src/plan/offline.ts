/** Keeps the site on the device, so that it opens without a network. */
if (import.meta.env.PROD && 'serviceWorker' in navigator) {
  const base = import.meta.env.BASE_URL.replace(/\/?$/, '/');
  void navigator.serviceWorker.register(`${base}offline.js`, { scope: base }).catch(() => undefined);
}
