/** Fetches the search once somebody turns to it, or where it is what the page is for. */
const load = (): void => void import('./site-search.ts');

for (const search of document.querySelectorAll('site-search')) {
  if (search.closest('main') || search.contains(document.activeElement)) load();
  else search.addEventListener('focusin', load, { once: true });
}
