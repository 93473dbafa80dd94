interface Node {
  tagName?: string;
  properties?: Record<string, unknown>;
  children?: Node[];
}

/** Pages link to `/f/<id>/`; a site served from a folder has that before it. TypeDoc links to `/api/schema.md#x`. */
export function rehypeBaseLinks(options: { readonly base: string }): (tree: unknown) => void {
  const base = options.base.replace(/\/$/, '');
  const visit = ({ tagName, properties, children }: Node): void => {
    const href = tagName === 'a' ? properties?.['href'] : undefined;
    if (properties && typeof href === 'string' && href.startsWith('/'))
      properties['href'] =
        base + href.replace(/^(\/api\/.*?)(?:index)?\.md(?=#|$)/, '$1/').replace('/api//', '/api/');
    children?.forEach(visit);
  };
  return (tree) => visit(tree as Node);
}
