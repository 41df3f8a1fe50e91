'use strict';
// Paints what the daemon's fold says, and tells. Decides nothing but one thing: what it has not heard just now is not shown.
const $ = id => document.getElementById(id);
const seat = location.pathname === '/inside' ? 'inside' : 'under';
const SILENT_MS = 1200;      // Frames come every 400 ms; two missing and a bit are silence.
const LATE_MS = 1500;        // A frame that was held up so long on its way is no news.
const HOLD_MS = 600;
const STOOD_MS = 200;        // so late a timer says that the page stood still
const AGAIN_MS = 100;
const units = { amount: 'L', at: 'C' };

let heard = -Infinity;       // when the last frame came, by our own clock
let base = Infinity;         // our clock less the daemon's, at the quickest frame so far
let shown = null;            // the view that is painted; null while nothing is known
let painted = {};            // what parts were painted from, so that only changes touch the page
let since = performance.now();
let may = null;
let stream = null;

// Our own words in the language of the browser; what stands in one is {named}.
const own = (name, facts = {}) => (WORDS[name] || name).replace(/\{(\w+)\}/g, (whole, of) => facts[of] ?? whole);
document.documentElement.lang = LANG;
for (const e of document.querySelectorAll('[data-says]')) e.textContent = own(e.dataset.says);
for (const e of document.querySelectorAll('[data-label]')) e.setAttribute('aria-label', own(e.dataset.label));

document.body.dataset.seat = seat;
if (seat === 'inside') { $('seat').href = '/'; $('seat').textContent = own('page-seat-under') }

// ---- hearing

async function begin() {
  try {
    const answer = await fetch('/who');
    if (answer.status === 401) return door();
    if (!answer.ok) throw new Error(answer.status);
    const who = await answer.json();
    may = who.may;
    if (who.units === 'us' || who.units === 'imperial') { units.amount = who.units === 'us' ? 'qt' : 'impqt'; units.at = 'F' }
    if ($('door').open) $('door').close();
    listen();
  } catch {
    setTimeout(begin, 700);
  }
}

function listen() {
  if (stream) stream.close();
  stream = new EventSource('/live?seat=' + seat);
  stream.onmessage = message => { if (message.data) hear(JSON.parse(message.data)) };
  stream.onerror = () => {
    lost();
    if (stream.readyState === EventSource.CLOSED) setTimeout(begin, 700);
  };
}

function hear(frame) {
  const now = performance.now();
  // Two clocks drift apart by a little; the quickest way so far is forgotten as slowly.
  if (heard > -Infinity) base += (now - heard) * 2e-4;
  base = Math.min(base, now - frame.t);
  if (now - frame.t - base > LATE_MS) return lost();
  heard = now;
  show(frame);
}

// Whatever was known does not count any more.
function lost() {
  if (shown === null && painted.lost) return;
  if (shown !== null) since = performance.now();
  base = Infinity;
  show(null);
}

function watchdog() {
  if (performance.now() - heard > SILENT_MS) lost();
  if (shown === null) age();
}
setInterval(watchdog, 100);
for (const event of ['visibilitychange', 'pageshow', 'resume', 'focus']) addEventListener(event, watchdog, true);
document.addEventListener('visibilitychange', watchdog);

// ---- painting

const nothing = () => ({
  surface: 'no-reading', word: own('word-no-reading'), place: $('place').textContent, why: own('page-no-daemon'),
  now: seat === 'inside' ? own('page-leave-engine') : own('page-close-port-if-open'),
  link: own('page-no-contact'), scale: painted.scale && { ...painted.scale, at: undefined, u: undefined, ahead: undefined },
  offers: [], cue: painted.cue || painted.heardOnce ? 'no-reading' : null, clock: { text: '', what: own('page-without-contact') },
});

function show(view) {
  const wasLost = shown === null;
  shown = view;
  painted.lost = view === null;
  if (view && view.cue) painted.heardOnce = true;
  const v = view || nothing();
  const body = document.body;
  if (body.dataset.surface !== v.surface || wasLost) speak(v);
  body.dataset.surface = v.surface;
  body.dataset.contact = view ? 'yes' : 'no';
  body.dataset.seq = view ? view.seq : '';
  text('word', v.word);
  // As large as its longest part has room for, in any language.
  $('word').style.setProperty('--letters', Math.max(2, ...v.word.split(' ').map(part => part.length)));
  text('now', v.now);
  text('why', v.why);
  text('place', v.place);
  text('link', v.link);
  text('next', v.next ? own('say-next', { what: v.next }) : '');
  text('find', v.find || '');
  text('balance', v.balance ? own('say-balance', { what: v.balance }) : '');
  $('clock').hidden = !v.clock;
  if (v.clock && view) { text('span', v.clock.text); text('what', v.clock.what) }
  list('open', v.open);
  list('cautions', v.cautions);
  if (changed('scale', v.scale)) pipe(v.scale);
  if (changed('offers', [v.offers, may])) offers(v.offers);
  $('undo').hidden = !(v.undo && may === 'tell');
  text('undo', v.undo ? own('say-undo', { what: v.undo }) : '');
  if (changed('rounds', v.rounds)) rounds(v.rounds);
  painted.cue = v.cue || null;
  Sound.set(v.cue || null);
  if (!view) age();
}

function age() {
  const seconds = Math.floor((performance.now() - since) / 1000) + '\u202fs';
  text('span', seconds);
  text('what', own('page-without-contact'));
  text('link', own('page-no-contact-for', { seconds }));
}

function changed(part, value) {
  const now = JSON.stringify(value === undefined ? null : value);
  if (painted['=' + part] === now) return false;
  painted['=' + part] = now;
  painted[part] = value;
  return true;
}

function text(id, value) { const e = $(id); if (e.textContent !== value) e.textContent = value }

function list(id, lines) {
  if (changed(id, lines)) $(id).replaceChildren(...(lines || []).map(line => make('li', line)));
}

function make(tag, content, set) {
  const e = document.createElement(tag);
  if (content) e.textContent = content;
  return Object.assign(e, set || {});
}

// A change of the surface is spoken once.
let spoken = '';
function speak(v) {
  const says = v.word + '. ' + v.now;
  if (says !== spoken) { spoken = says; $('spoken').textContent = says }
}

const NS = 'http://www.w3.org/2000/svg';
function pipe(scale) {
  const svg = $('pipe');
  svg.replaceChildren();
  if (!scale) return;
  const y = t => Math.max(6, Math.min(394, 390 - (t - scale.low) / (scale.high - scale.low) * 380));
  const shown = t => Math.round(units.at === 'F' ? t * 9 / 5 + 32 : t);
  const draw = (tag, kind, set, content) => {
    const e = document.createElementNS(NS, tag);
    e.setAttribute('class', kind);
    for (const [name, value] of Object.entries(set)) e.setAttribute(name, value);
    if (content !== undefined) e.textContent = content;
    svg.append(e);
  };
  draw('path', 'wall', { d: 'M36 4V396M70 4V396' });
  for (let t = scale.low; t <= scale.high; t += 5) {
    const long = (t - scale.low) % 10 === 0;
    draw('path', 'tick', { d: `M${long ? 24 : 29} ${y(t)}H35` });
    if (long) draw('text', '', { x: 0, y: y(t) + 5 }, shown(t));
  }
  const [low, high] = scale.band;
  draw('path', 'band', { d: `M77 ${y(low)}h14V${y(high)}h-14` });
  draw('text', 'big', { x: 97, y: y(low) + 7 }, shown(low));
  draw('text', 'big', { x: 97, y: y(high) + 7 }, shown(high));
  let label = own('page-pipe-nothing-known');
  if (scale.at !== undefined) {
    const u = scale.u || 0.3;
    draw('rect', 'fluid', { x: 38, width: 30, y: y(scale.at), height: Math.max(0, 394 - y(scale.at)) });
    draw('rect', 'bar', { x: 28, width: 50, y: y(scale.at + u), height: Math.max(4, y(scale.at - u) - y(scale.at + u)) });
    label = own('page-pipe-shows', { celsius: `${shown(scale.at)} °${units.at}`, low: shown(low), high: shown(high) });
  }
  if (scale.ahead) {
    const [from, to] = scale.ahead.map(y);
    draw('path', 'ahead', { d: `M41 ${from}h24M41 ${to}h24M53 ${from}V${to}` });
  }
  svg.setAttribute('aria-label', label);
}

// ---- telling

function offers(all) {
  const can = may === 'tell' ? all : [];
  $('offers').replaceChildren(...can.filter(o => !o.aside).map(button));
  $('aside').replaceChildren(...can.filter(o => o.aside).map(button));
}

// A finger means the button that it was put on, and only if that had been there to be seen: what comes to lie under it
// afterwards, because the offers changed meanwhile, is not meant. (A screen reader's click has no finger: detail is 0.)
const SEEN_MS = 350;
let meant = null;
addEventListener('pointerdown', e => {
  const b = e.target.closest?.('button');
  meant = b && performance.now() - (b.born ?? -Infinity) > SEEN_MS ? b : null;
}, true);
addEventListener('click', e => {
  const b = e.target.closest?.('button');
  if (b && e.detail !== 0 && b !== meant) { e.stopImmediatePropagation(); e.preventDefault() }
}, true);

function button(offer) {
  const b = make('button', offer.label, { type: 'button', born: performance.now() });
  b.dataset.tell = offer.tell;
  if (offer.what) b.dataset.what = offer.what;
  if (offer.primary) b.className = 'primary';
  const go = () => offer.ask === 'nothing' ? tell({ tell: offer.tell, what: offer.what, text: offer.text }) : fill(offer);
  if (offer.hold && offer.ask === 'nothing') {
    b.append(make('small', own('hold-to-tell')));
    hold(b, go, offer);
  } else {
    b.onclick = go;
  }
  return b;
}

// Held for a moment, by finger or by key. Whoever cannot hold (a screen reader's click) is asked instead.
function hold(b, go, offer) {
  let timer = 0, pressed = false;
  const start = () => {
    if (timer) return;
    b.classList.add('holding');
    const full = due => {
      // A page that stood still may not have heard yet that the finger was lifted: it listens once more.
      const late = performance.now() - due > STOOD_MS;
      if (late) { timer = setTimeout(full, AGAIN_MS, performance.now() + AGAIN_MS); return }
      stop();
      go();
    };
    timer = setTimeout(full, HOLD_MS, performance.now() + HOLD_MS);
  };
  const stop = () => { clearTimeout(timer); timer = 0; b.classList.remove('holding') };
  const early = () => {
    if (!timer) return;
    stop();
    say(own('hold-longer', { what: offer.label }));
  };
  b.addEventListener('pointerdown', e => { pressed = true; if (e.button === 0 && meant === b) start() });
  for (const end of ['pointerup', 'pointerleave', 'pointercancel', 'blur']) b.addEventListener(end, early);
  b.addEventListener('keydown', e => {
    if (e.key === 'Enter' || e.key === ' ') { e.preventDefault(); if (!e.repeat) start() }
  });
  b.addEventListener('keyup', e => { if (e.key === 'Enter' || e.key === ' ') { e.preventDefault(); early() } });
  b.addEventListener('contextmenu', e => e.preventDefault());
  // The click that ends a press is not one more, however long the press was.
  b.addEventListener('click', e => { if (e.detail === 0 || !pressed) fill(offer); pressed = false });
}

async function tell(said) {
  say('…');
  const id = Array.from(crypto.getRandomValues(new Uint8Array(12)), b => b.toString(16).padStart(2, '0')).join('');
  const body = JSON.stringify({ id, seat, said: Object.fromEntries(Object.entries(said).filter(([, v]) => v !== undefined)) });
  // The same id again is not carried out twice, so a broken connection may be tried once more.
  for (let tries = 0; tries < 2; tries++) {
    try {
      const answer = await fetch('/tell', { method: 'POST', headers: { 'content-type': 'application/json' }, body });
      const word = await answer.json();
      say(word.says);
      return word.ok ? null : word.says;
    } catch { await new Promise(done => setTimeout(done, 400)) }
  }
  say(own('not-told-no-contact'));
  return own('not-told-no-contact');
}

let quiet = 0;
function say(what) {
  text('answer', what);
  clearTimeout(quiet);
  quiet = setTimeout(() => text('answer', ''), 12000);
}

$('undo').onclick = () => tell({ tell: 'undo' });

// ---- asking for what a request needs

let asking = null;
function field(id, label, set, unit) {
  const wrap = make('label', label + (unit ? ', ' + unit : ''));
  wrap.append(make('input', '', { id, name: id, autocomplete: 'off', ...set }));
  return wrap;
}

function choice(id, label, options) {
  const wrap = make('label', label);
  const select = make('select', '', { id, name: id });
  select.append(...options.map(([value, says]) => make('option', says, { value })));
  wrap.append(select);
  return wrap;
}

function fill(offer) {
  asking = offer;
  text('ask-title', offer.label);
  text('wrong', '');
  const number = { inputMode: 'decimal', required: true, pattern: '[-−]?[0-9]+([.,][0-9]+)?' };
  const ask = typeof offer.ask === 'string' ? offer.ask : Object.keys(offer.ask)[0];
  const degrees = units.at === 'F' ? '°F' : '°C';
  const of = {
    nothing: () => [],
    amount: () => [field('amount', own('page-how-much'), number, units.amount), field('at', own('page-how-warm'), { ...number, required: false }, degrees)],
    depth: () => [field('depth', own('page-depth'), number, 'mm')],
    level: () => [field('pitch', own('page-pitch'), number, own('page-degrees')), field('roll', own('page-roll'), number, own('page-degrees'))],
    temperature: () => [field('at', own('page-temperature'), number, degrees)],
    spot: () => [field('at', own('page-thermometer-shows'), number, degrees), choice('surface', own('page-held-to'), offer.ask.spot)],
    text: () => [field('text', own('page-in-your-words'), { maxLength: 200, required: true })],
    choice: () => [choice('text', own('page-which'), offer.ask.choice)],
  };
  $('fields').replaceChildren(...of[ask]());
  $('ask').showModal();
  ($('fields').querySelector('input, select') || $('yes')).focus();
}

$('form').onsubmit = async event => {
  event.preventDefault();
  const value = id => { const e = $('fields').querySelector('#' + id); return e && e.value.trim() !== '' ? e.value.trim() : undefined };
  // A unit that was typed counts; a bare number has the one beside its field.
  const unit = (id, u) => { const v = value(id); return v !== undefined && /[0-9]$/.test(v) ? v + u : v };
  const said = {
    tell: asking.tell, what: asking.what, amount: unit('depth', 'mm') || unit('amount', units.amount), at: unit('at', units.at),
    pitch: unit('pitch', 'deg'), roll: unit('roll', 'deg'), surface: value('surface'), text: value('text') || asking.text,
  };
  const wrong = await tell(said);
  if (wrong) text('wrong', wrong); else $('ask').close();
};
$('no').onclick = () => $('ask').close();

// ---- the selector's rounds: the daemon counts, this shows

function rounds(r) {
  $('rounds').hidden = !r;
  if (!r) return;
  text('dwell', r.says);
  $('positions').replaceChildren(...r.positions.map((name, n) => {
    const li = make('li', name);
    if (n === r.at) li.setAttribute('aria-current', 'step'); else if (n < r.at) li.className = 'past';
    if (n === r.next && r.left_s === 0) li.classList.add('due');
    return li;
  }));
}

// ---- elsewhere

async function read(title, path, paint) {
  text('sheet-title', title);
  $('sheet-text').replaceChildren(make('p', '…'));
  $('sheet').showModal();
  try {
    const answer = await fetch(path);
    if (!answer.ok) throw new Error((await answer.json()).says);
    $('sheet-text').replaceChildren(...await paint(answer));
  } catch (why) {
    $('sheet-text').replaceChildren(make('p', String(why.message || why)));
  }
}
$('close').onclick = () => $('sheet').close();
$('plan').onclick = () => read(own('page-plan'), '/plan', async answer => [make('p', await answer.text(), { className: 'pre' })]);
$('jobs').onclick = () => read(own('page-jobs'), '/jobs', async answer => {
  const jobs = await answer.json();
  if (!jobs.length) return [make('p', own('page-no-job'))];
  return jobs.map(job => {
    const p = make('p');
    p.append(make('a', own('page-job', { job: job.job, day: job.day }), { href: '/job/' + job.job, target: '_blank', rel: 'noopener' }), ` ${job.sheet}. ${job.says}`);
    return p;
  });
});

// ---- sound

const WHETHER = { sound: [own('page-sound-off'), own('page-sound-on')], vibrate: [own('page-vibration-off'), own('page-vibration-on')] };
function pressed(id, on) { $(id).setAttribute('aria-pressed', String(on)); text(id, WHETHER[id][Number(on)]) }
$('sound').onclick = async () => { await Sound.turn(!Sound.state.on); pressed('sound', Sound.state.on) };
$('vibrate').onclick = () => { Sound.shake(!Sound.state.vibrate); pressed('vibrate', Sound.state.vibrate) };
$('vibrate').hidden = !navigator.vibrate;
$('volume').oninput = () => Sound.volume(Number($('volume').value));
$('volume').value = Sound.state.volume;
$('try').onclick = async () => { await Sound.all(); pressed('sound', Sound.state.on) };
pressed('vibrate', Sound.state.vibrate);

// The screen stays awake where the browser lets us.
async function awake() { try { await navigator.wakeLock.request('screen') } catch { /* not here */ } }
document.addEventListener('visibilitychange', () => { if (!document.hidden) awake() });
awake();

// ---- being let in

function door() {
  lost();
  $('door-clear').hidden = window.isSecureContext;
  if (!$('door').open) $('door').showModal();
}
$('door').addEventListener('cancel', event => event.preventDefault());

async function bring(what) {
  const answer = await fetch('/pair', { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(what) });
  if (answer.ok) return begin();
  text('door-wrong', (await answer.json()).says);
  door();
}
$('pair').onsubmit = event => { event.preventDefault(); bring({ code: $('code').value }).catch(() => text('door-wrong', own('page-no-contact'))) };

// What stands behind the # is never sent to a server by itself, nor kept in the history.
const brought = new URLSearchParams(location.hash.slice(1));
if (location.hash) history.replaceState(null, '', location.pathname);
if (brought.has('pair')) bring({ code: brought.get('pair') }).catch(begin);
else if (brought.has('see')) bring({ link: brought.get('see') }).catch(begin);
else begin();
