/** Puts a text on the clipboard; where a host keeps its guests from the clipboard, by the older way. */
export async function copyText(text: string): Promise<void> {
  try {
    await navigator.clipboard.writeText(text);
  } catch {
    const before = document.activeElement;
    const area = document.createElement('textarea');
    area.value = text;
    area.setAttribute('aria-hidden', 'true');
    area.style.position = 'fixed';
    area.style.opacity = '0';
    document.body.append(area);
    area.select();
    document.execCommand('copy');
    area.remove();
    if (before instanceof HTMLElement) before.focus();
  }
}
