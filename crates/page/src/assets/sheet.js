'use strict';
// Vehicle data on the page: question by question, value by value. What is asked, read and checked is the program's own machine.
const Sheets = {
  async ask(body) {
    const post = { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) };
    const answer = await fetch('/sheet', post);
    const said = await answer.json();
    if (!answer.ok) throw new Error(said.says);
    return said;
  },

  button(label, press, set) {
    const b = make('button', label, Object.assign({ type: 'button' }, set));
    b.onclick = press;
    return b;
  },

  // What is shown: the answer to what was typed, the question, and all values.
  show(title, nodes) {
    text('sheet-title', title);
    $('sheet-text').replaceChildren(...nodes);
    $('sheet').scrollTop = 0;
  },

  async list() {
    if (!$('sheet').open) $('sheet').showModal();
    try {
      const answer = await fetch('/sheets');
      const all = await answer.json();
      if (!answer.ok) throw new Error(all.says);
      const rows = all.map(one => Sheets.button(`${one.file}: ${one.says}`, () => Sheets.open(one.file), { className: 'of-sheet' }));
      const label = make('label', 'A new one: its name, like old-six-speed');
      const name = make('input', '', { id: 'sheet-name', maxLength: 60, autocapitalize: 'off', spellcheck: false });
      label.append(name);
      const wrong = make('p', '', { id: 'sheet-wrong' });
      wrong.setAttribute('role', 'alert');
      const begin = Sheets.button('Begin', () => Sheets.open(name.value.trim()), { id: 'sheet-new', className: 'primary' });
      Sheets.show('Vehicle data', [...rows, label, wrong, begin]);
    } catch (why) { Sheets.show('Vehicle data', [make('p', String(why.message || why))]) }
  },

  async open(file) { await Sheets.go({ file }) },

  async go(body) {
    try { Sheets.paint(body.file, await Sheets.ask(body)) }
    catch (why) { text('sheet-wrong', String(why.message || why)) }
  },

  paint(file, now) {
    const nodes = [];
    const heard = now.heard && (now.heard.says || now.heard.why);
    const p = make('p', heard || '', { id: 'sheet-heard', className: 'pre' });
    p.setAttribute('role', 'status');
    nodes.push(p);
    const wrong = make('p', '', { id: 'sheet-wrong' });
    wrong.setAttribute('role', 'alert');
    if (now.written) {
      nodes.push(make('p', 'Written. The daemon knows it after its next start.', { id: 'sheet-written' }));
      if (now.most) nodes.push(make('p', now.most));
      nodes.push(Sheets.button('All vehicle data', Sheets.list));
      return Sheets.show(file, nodes);
    }
    const say = said => Sheets.go({ file, key: now.asked.key, said });
    if (now.asked) {
      const q = now.asked;
      nodes.push(make('h3', `${q.number}. ${q.asks}`, { id: 'sheet-asks' }), make('p', `${q.means} ${q.found}`));
      const choices = q.choices || [];
      if (choices.length) {
        const all = make('div', '', { className: 'offers' });
        all.append(...choices.map(([word, says]) => {
          const b = Sheets.button(word, () => say(word));
          b.dataset.choice = word;
          b.append(make('small', says));
          return b;
        }));
        nodes.push(all);
      } else if (q.key !== 'write') {
        const label = make('label', q.like ? `Like ${q.like}` : 'Answer');
        const field = make('input', '', { id: 'sheet-said', maxLength: 300, autocapitalize: 'off', autocomplete: 'off', spellcheck: false });
        field.onkeydown = event => { if (event.key === 'Enter') { event.preventDefault(); say(field.value) } };
        label.append(field);
        nodes.push(label, Sheets.button('Take it', () => say(field.value), { id: 'sheet-take', className: 'primary' }));
      } else {
        nodes.push(Sheets.button('Go on', () => say('go on'), { id: 'sheet-on' }));
      }
      if (q.stands && q.key !== 'write') nodes.push(make('p', `Without an answer: ${q.stands}${q.guess ? ', a guess' : ''}.`));
      nodes.push(wrong);
      const row = make('div', '', { className: 'offers' });
      if (q.key !== 'write') row.append(Sheets.button('I don’t know', () => say("I don't know"), { id: 'sheet-unknown' }));
      row.append(Sheets.button('Back', () => Sheets.go({ file, said: 'back' }), { id: 'sheet-back' }), Sheets.button('Help', () => say('?'), { id: 'sheet-help' }));
      nodes.push(row);
    } else {
      nodes.push(make('p', 'Choose the value that is to be another one.'), wrong);
    }
    if (now.can_write) nodes.push(Sheets.button('Write the sheet', () => Sheets.go({ file, said: 'done' }), { id: 'sheet-write' }));
    const more = make('details', '', { open: !now.asked });
    more.append(make('summary', 'All values'));
    const all = make('div', '', { className: 'offers' });
    all.append(...now.rows.map(row => {
      const b = Sheets.button(row.label, () => Sheets.go({ file, key: row.key }));
      b.dataset.key = row.key;
      b.append(make('small', (row.shown || 'left out') + (row.source ? `, ${row.source}` : '')));
      return b;
    }));
    more.append(all);
    nodes.push(more);
    if (now.most) nodes.push(make('p', now.most));
    Sheets.show(file, nodes);
    const field = $('sheet-said');
    if (field) field.focus();
  },
};
$('data').onclick = Sheets.list;
