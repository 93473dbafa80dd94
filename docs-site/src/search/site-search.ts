import type MiniSearch from 'minisearch';
import type { Found } from './entry.ts';

type Index = MiniSearch<Found>;

let index: Promise<Index> | undefined;

/** The entries, and what looks through them: loaded once, when somebody first looks for something. */
async function load(address: string): Promise<Index> {
  const [{ default: Search }, response] = await Promise.all([import('minisearch'), fetch(address)]);
  if (!response.ok) throw new Error(`${response.status}`);
  const entries = (await response.json()) as readonly Found[];
  const made: Index = new Search<Found>({
    idField: 'to',
    fields: ['title', 'text'],
    storeFields: ['title', 'kind', 'to', 'text'],
    searchOptions: {
      combineWith: 'AND',
      prefix: true,
      fuzzy: (term) => (term.length > 4 ? 0.2 : false),
      boost: { title: 4 },
      // There are many rows of checks and few formulas.
      boostDocument: (_, __, stored) => ({ formula: 2.5, check: 0.4 })[String(stored?.['kind'])] ?? 1,
    },
  });
  made.addAll(entries);
  return made;
}

const element = <K extends keyof HTMLElementTagNameMap>(
  name: K,
  text: string,
  set: Partial<HTMLElementTagNameMap[K]> = {},
): HTMLElementTagNameMap[K] => Object.assign(document.createElement(name), { textContent: text }, set);

function item(to: string, title: string, kind: string, text: string): HTMLLIElement {
  const li = document.createElement('li');
  const link = element('a', title, { href: to });
  const about = element('span', text.length > 110 ? `${text.slice(0, 108).replace(/\s+\S*$/, '')} …` : text);
  about.className = 'small';
  const of = element('span', kind);
  of.className = 'small kind';
  li.append(link, ' ', of, about);
  return li;
}

/** A field that finds pages of this site as one types. */
class SiteSearch extends HTMLElement {
  #asked = '';

  connectedCallback(): void {
    const input = this.querySelector('input');
    const list = this.querySelector('ul');
    if (!input || !list) return;
    const show = (): void => void this.#show(input, list);
    input.addEventListener('focus', () => void this.#index());
    input.addEventListener('input', show);
    this.addEventListener('keydown', (event) => this.#key(event, input, list));
    // Turned to, and typed in, while this was fetched.
    if (this.contains(document.activeElement)) void this.#index();
    if (input.value !== '') show();
    if (!this.#whole) {
      this.addEventListener('focusout', ({ relatedTarget }) => {
        if (!this.contains(relatedTarget as Node | null)) list.hidden = true;
      });
      this.addEventListener('focusin', () => {
        list.hidden = list.childElementCount === 0;
      });
      return;
    }
    const read = (): void => {
      input.value = new URLSearchParams(location.hash.slice(1)).get('q') ?? '';
      show();
    };
    addEventListener('hashchange', read);
    if (location.hash.startsWith('#q=')) read();
  }

  /** Whether it stands on the page that lists all. */
  get #whole(): boolean {
    return location.pathname === this.dataset['all'] && this.closest('main') !== null;
  }

  #index(): Promise<Index> {
    index ??= load(this.dataset['index'] ?? '').catch((error: unknown) => {
      index = undefined;
      throw error;
    });
    return index;
  }

  #say(text: string): void {
    const status = this.querySelector('[role=status]');
    if (status) status.textContent = text;
  }

  async #show(input: HTMLInputElement, list: HTMLUListElement): Promise<void> {
    const asked = input.value.trim();
    this.#asked = asked;
    if (asked === '') {
      list.replaceChildren();
      list.hidden = true;
      this.#say('');
      return;
    }
    let found: Index;
    try {
      found = await this.#index();
    } catch {
      this.#say('The index could not be loaded. The search page lists everything.');
      return;
    }
    // Something else was typed meanwhile.
    if (this.#asked !== asked) return;
    const results = found.search(asked);
    const most = Number(this.dataset['most']);
    list.replaceChildren(
      ...results
        .slice(0, most)
        .map(({ to, title, kind, text }) => item(String(to), String(title), String(kind), String(text))),
    );
    if (results.length > most && !this.#whole)
      list.append(
        item(
          `${this.dataset['all']}#q=${encodeURIComponent(asked)}`,
          `All ${results.length} results`,
          '',
          '',
        ),
      );
    list.hidden = results.length === 0;
    const { length } = results;
    this.#say(
      length === 0 ? `Nothing found for “${asked}”` : `${length} ${length === 1 ? 'result' : 'results'}`,
    );
  }

  #key(event: KeyboardEvent, input: HTMLInputElement, list: HTMLUListElement): void {
    const links = [...list.querySelectorAll('a')];
    const at = links.indexOf(document.activeElement as HTMLAnchorElement);
    if (event.key === 'Escape') {
      input.value = '';
      input.focus();
      void this.#show(input, list);
    } else if (event.key === 'ArrowDown' && !list.hidden) links[Math.min(at + 1, links.length - 1)]?.focus();
    else if (event.key === 'ArrowUp' && at >= 0) (at === 0 ? input : links[at - 1])?.focus();
    else if (event.key === 'Enter' && event.target === input && input.value.trim() !== '')
      location.href = `${this.dataset['all']}#q=${encodeURIComponent(input.value.trim())}`;
    else return;
    event.preventDefault();
  }
}

customElements.define('site-search', SiteSearch);
