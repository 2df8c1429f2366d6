// Giving files and text to the reader.
import { el } from '../shared/dom.js';

/** Gives a file to keep. @type {(name: string, type: string, content: BlobPart) => void} */
export function give(name, type, content) {
  const link = el('a', { href: URL.createObjectURL(new Blob([content], { type })), download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}

/** Copies text, and a table for those who take one; false where the browser does not let a page copy. @type {(text: string, html?: string) => Promise<boolean>} */
export async function copyText(text, html) {
  try {
    if (html === undefined) await navigator.clipboard.writeText(text);
    else await navigator.clipboard.write([new ClipboardItem({ 'text/plain': new Blob([text], { type: 'text/plain' }), 'text/html': new Blob([html], { type: 'text/html' }) })]);
    return true;
  } catch {
    return copyOtherwise(text, html ?? '');
  }
}

/** @type {(text: string, html: string) => boolean} */
function copyOtherwise(text, html) {
  /** @type {(event: ClipboardEvent) => void} */
  const put = (event) => {
    event.preventDefault();
    event.clipboardData?.setData('text/plain', text);
    if (html) event.clipboardData?.setData('text/html', html);
  };
  document.addEventListener('copy', put, { once: true });
  try {
    return document.execCommand('copy');
  } catch {
    return false;
  } finally {
    document.removeEventListener('copy', put);
  }
}
