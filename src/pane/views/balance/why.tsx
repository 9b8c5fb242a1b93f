/** What is wrong with a cell: the pane's own refusal before what was found below the pane, which is in English. */
export function Why({ own, below }: { readonly own: string | undefined; readonly below: string | undefined }) {
  if (own !== undefined) return <>{own}</>;
  return below === undefined ? null : <span lang="en">{below}</span>;
}
