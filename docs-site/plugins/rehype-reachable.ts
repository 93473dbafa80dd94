interface Node {
  type: string;
  tagName?: string;
  value?: string;
  properties?: Record<string, unknown>;
  children?: Node[];
}

const textOf = ({ value = '', children = [] }: Node): string => value + children.map(textOf).join('');

/** Tables and code may be wider than the page: each scrolls in a box that a keyboard reaches, named after its heading. */
export function rehypeReachable(): (tree: unknown) => void {
  let heading = '';
  const visit = (node: Node): void => {
    if (!node.children) return;
    node.children = node.children.map((child) => {
      if (/^h[1-6]$/.test(child.tagName ?? '')) heading = textOf(child);
      if (child.tagName !== 'table' && child.tagName !== 'pre') {
        visit(child);
        return child;
      }
      const [className, what] = child.tagName === 'table' ? ['wide', 'table'] : ['code', 'code'];
      const properties = {
        className: [className],
        role: 'group',
        tabIndex: 0,
        ariaLabel: `${heading}: ${what}`,
      };
      return { type: 'element', tagName: 'div', properties, children: [child] };
    });
  };
  return (tree) => visit(tree as Node);
}
