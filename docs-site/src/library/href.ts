/** An address within the site, wherever it is served from. */
export const href = (path: string): string => import.meta.env.BASE_URL.replace(/\/$/, '') + path;

export const formulaHref = (id: string): string => href(`/f/${id}/`);
export const sourceHref = (id: string): string => href(`/sources/#${id}`);
