type Child = Node | string | undefined | false;
type Attributes = Readonly<Record<string, string | number | boolean | undefined>>;

/** An element with attributes and children; text stays text. */
export function h<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: readonly (Child | readonly Child[])[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === false) continue;
    made.setAttribute(name, value === true ? '' : String(value));
  }
  for (const child of children.flat()) if (child !== undefined && child !== false) made.append(child);
  return made;
}

/** A drawing of our own, from text that no one else wrote. */
export function drawn(svg: string): Element {
  const holder = document.createElement('template');
  holder.innerHTML = svg;
  return holder.content.firstElementChild as Element;
}

export const on = <T extends HTMLElement>(element: T, event: string, run: () => void): T => {
  element.addEventListener(event, run);
  return element;
};
