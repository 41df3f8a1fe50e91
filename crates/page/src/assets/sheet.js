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
      const shared = make('label', 'Or take what another workshop shared');
      const file = make('input', '', { id: 'sheet-file', type: 'file' });
      file.onchange = () => Sheets.take(name.value.trim(), file.files[0]);
      shared.append(file);
      Sheets.show('Vehicle data', [...rows, label, wrong, begin, shared]);
    } catch (why) { Sheets.show('Vehicle data', [make('p', String(why.message || why))]) }
  },

  async open(file) { await Sheets.go({ file }) },

  // A shared file becomes a sheet in which nobody has confirmed anything yet.
  async take(name, file) {
    if (!file) return;
    if (file.size > 120000) return text('sheet-wrong', 'Too large for the page. Take it on the command line.');
    const plain = file.name.replace(/\.[^.]*$/, '').replace(/[^A-Za-z0-9_-]+/g, '-').replace(/^-+/, '').slice(0, 60);
    await Sheets.go({ file: name || plain, act: { take: { text: await file.text() } } });
  },

  // Value by value: each is read beside the maker's text.
  unconfirmed(file, all) {
    const part = make('section', '', { id: 'sheet-unconfirmed' });
    part.append(make('h3', `Not confirmed yet: ${all.length}`), make('p', 'No job begins before. Read each beside the maker’s text.'));
    const label = make('label', 'Who confirms');
    const by = make('input', Sheets.by || '', { id: 'sheet-by', maxLength: 60, autocomplete: 'off', spellcheck: false });
    by.value = Sheets.by || '';
    by.oninput = () => { Sheets.by = by.value.trim() };
    label.append(by);
    const rows = make('div', '', { className: 'offers' });
    rows.append(...all.map(one => {
      const press = () => one.guessed ? Sheets.go({ file, key: one.key }) : Sheets.go({ file, act: { confirm: { key: one.key, by: Sheets.by || '' } } });
      const b = Sheets.button(one.guessed ? `Give: ${one.label}` : `Confirm: ${one.label}`, press);
      b.dataset.confirm = one.key;
      b.append(make('small', one.shown || 'left out'));
      return b;
    }));
    part.append(label, rows);
    return part;
  },

  async go(body) {
    try { Sheets.paint(body.file, await Sheets.ask(body)) }
    catch (why) { text('sheet-wrong', String(why.message || why)) }
  },

  paint(file, now) {
    const nodes = [];
    const heard = now.done || now.heard && (now.heard.says || now.heard.why);
    const p = make('p', heard || '', { id: 'sheet-heard', className: 'pre' });
    p.setAttribute('role', 'status');
    nodes.push(p);
    const wrong = make('p', '', { id: 'sheet-wrong' });
    wrong.setAttribute('role', 'alert');
    if (now.written) {
      nodes.push(make('p', 'Written. The daemon knows it in a few seconds.', { id: 'sheet-written' }));
      if (now.most) nodes.push(make('p', now.most));
      if (now.to_confirm) nodes.push(wrong, Sheets.unconfirmed(file, now.to_confirm));
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
      nodes.push(wrong);
      if (now.to_confirm) nodes.push(Sheets.unconfirmed(file, now.to_confirm));
      nodes.push(make('p', 'Choose the value that is to be another one.'));
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
    if (now.shared) {
      const link = make('a', 'Save the file for the other workshop', { id: 'sheet-shared', download: `${file}.share` });
      link.href = 'data:application/json;charset=utf-8,' + encodeURIComponent(now.shared);
      nodes.push(link);
    } else if (now.can_share && !now.asked) {
      nodes.push(Sheets.button('Share it', () => Sheets.go({ file, act: 'share' }), { id: 'sheet-share' }));
    }
    Sheets.show(file, nodes);
    const field = $('sheet-said');
    if (field) field.focus();
  },
};
$('data').onclick = Sheets.list;
