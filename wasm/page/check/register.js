// furrow itself: the check register on this machine and in this browser.
import { el, fill } from '../shared/dom.js';
import { give } from '../worksheet/files.js';

/** @type {(pad: import('../shared/shell.js').Pad) => void} */
export function register({ at, client, trouble }) {
  const said = at.byId('register-said');
  const keep = /** @type {HTMLButtonElement} */ (at.byId('register-save'));
  let page = '';
  keep.disabled = true;
  at.press('register-run', async () => {
    fill(said, 'The checks are running.');
    try {
      /** @type {import('../furrow.js').SelfcheckAnswer} */
      const answer = await client.call('selfcheck', new Date().toISOString().slice(0, 16).replace('T', ' ') + ' UTC');
      const { passed, failed, checks } = answer.document;
      fill(said, el('b', {}, `${passed} of ${passed + failed} checks agree.`), ...checks.filter((c) => c.word !== 'agrees').map((c) => el('p', {}, `${c.what}: found ${c.found ?? 'nothing'}, expected ${c.expected}. ${c.fault ?? ''}`)));
      const article = new DOMParser().parseFromString(answer.article, 'text/html').querySelector('article');
      fill(at.byId('register-list'), article);
      at.byId('register-lines').hidden = false;
      at.announce(said.textContent ?? '');
      page = answer.page;
      keep.disabled = false;
    } catch (error) {
      fill(said);
      trouble(`The checks could not be run: ${/** @type {Error} */ (error).message}.`);
    }
  });
  at.press('register-save', () => give('furrow-validation.html', 'text/html', page));
}
