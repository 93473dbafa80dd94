/** Shows the check rows that fit what is chosen, and keeps the choice in the address's fragment. */
class CheckFilter extends HTMLElement {
  connectedCallback(): void {
    const fields = [...this.querySelectorAll('select')];
    const read = (): void => {
      const asked = new URLSearchParams(location.hash.slice(1));
      for (const field of fields) {
        const value = asked.get(field.name) ?? '';
        field.value = [...field.options].some((option) => option.value === value) ? value : '';
      }
      this.#show(fields);
    };
    this.addEventListener('change', () => {
      const chosen = fields.filter(({ value }) => value !== '').map(({ name, value }) => `${name}=${value}`);
      history.replaceState(null, '', chosen.length > 0 ? `#${chosen.join('&')}` : location.pathname);
      this.#show(fields);
    });
    addEventListener('hashchange', read);
    read();
  }

  #show(fields: readonly HTMLSelectElement[]): void {
    const wanted = Object.fromEntries(fields.map(({ name, value }) => [name, value]));
    const fits = (value: string | undefined, name: string): boolean =>
      !wanted[name] || wanted[name] === value;
    let shown = 0;
    for (const group of document.querySelectorAll<HTMLElement>('[data-formula]')) {
      const rows = [...group.querySelectorAll<HTMLElement>('tr[data-state]')];
      for (const row of rows)
        row.hidden = !['kind', 'status', 'state'].every((name) => fits(row.dataset[name], name));
      const left = rows.filter((row) => !row.hidden).length;
      const formula = fits(group.dataset['formula'], 'formula');
      group.hidden = !formula || (left === 0 && fields.some(({ value }) => value !== ''));
      if (formula) shown += left;
    }
    const status = this.querySelector('[role=status]');
    if (status)
      status.textContent = shown === 0 ? 'No row fits' : `${shown} ${shown === 1 ? 'row' : 'rows'} shown`;
  }
}

customElements.define('check-filter', CheckFilter);
