// The script of this sheet.
import { openPad } from '../shared/shell.js';

openPad(document, () => {});
