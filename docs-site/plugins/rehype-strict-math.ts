interface File {
  readonly path: string;
  readonly messages: readonly {
    readonly source?: string | undefined;
    readonly reason: string;
    readonly line?: number | undefined;
  }[];
}

/** rehype-katex only notes a formula that it cannot set; a page with one must not be published. */
export function rehypeStrictMath(): (tree: unknown, file: File) => void {
  return (_tree, file) => {
    const bad = file.messages.find((message) => message.source === 'rehype-katex');
    if (bad) throw new Error(`${file.path}:${bad.line ?? '?'}: ${bad.reason}`);
  };
}
