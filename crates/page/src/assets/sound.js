'use strict';
// The sound patterns, from the program's own table. Silent until somebody turns it on: browsers want a touch first.
const Sound = (() => {
  let context = null, gain = null, table = [], cue = null, repeat = 0, tones = [];
  const kept = (name, other) => { try { return localStorage.getItem(name) ?? other } catch { return other } };
  const keep = (name, value) => { try { localStorage.setItem(name, value) } catch { /* a private window */ } };
  const state = { on: false, vibrate: kept('vibrate', 'no') === 'yes', volume: Number(kept('volume', '70')) };

  fetch('/cues').then(r => r.json()).then(t => { table = t }).catch(() => {});

  function wake() {
    if (!context) {
      context = new AudioContext();
      gain = context.createGain();
      gain.connect(context.destination);
    }
    gain.gain.value = state.volume / 100;
    return context.resume();
  }

  function tone(hertz, at, seconds) {
    const source = context.createOscillator(), edge = context.createGain();
    source.type = 'square';
    source.frequency.value = hertz;
    // A short slope at both ends: without it, each tone clicks.
    edge.gain.setValueAtTime(0, at);
    edge.gain.linearRampToValueAtTime(0.5, at + 0.005);
    edge.gain.setValueAtTime(0.5, at + seconds - 0.005);
    edge.gain.linearRampToValueAtTime(0, at + seconds);
    source.connect(edge).connect(gain);
    source.start(at);
    source.stop(at + seconds);
    tones.push(source);
  }

  // Gives the milliseconds that it lasts.
  function play(pattern, times) {
    let at = 0;
    const beats = [];
    for (let n = 0; n < times; n++) {
      for (const note of pattern.notes) {
        if (state.on && context) tone(note.hertz, context.currentTime + 0.02 + at / 1000, note.on_ms / 1000);
        beats.push(note.on_ms, note.off_ms);
        at += note.on_ms + note.off_ms;
      }
    }
    if (state.vibrate && navigator.vibrate) navigator.vibrate(beats);
    return at;
  }

  function hush() {
    clearInterval(repeat);
    for (const source of tones) { try { source.stop() } catch { /* it has ended */ } }
    tones = [];
    if (state.vibrate && navigator.vibrate) navigator.vibrate(0);
  }

  function set(next) {
    if (next === cue) return;
    cue = next;
    hush();
    const pattern = table.find(p => p.cue === cue);
    if (!pattern) return;
    play(pattern, pattern.times);
    if (pattern.every_ms) repeat = setInterval(() => { tones = []; play(pattern, 1) }, pattern.every_ms);
  }

  async function all() {
    await turn(true);
    const now = cue;
    set(null);
    for (const pattern of table) {
      const ms = play(pattern, 1);
      await new Promise(done => setTimeout(done, ms + 500));
    }
    set(now);
  }

  async function turn(on) {
    state.on = on;
    if (on) await wake(); else hush();
    const now = cue;
    cue = null;
    set(now);
  }

  return {
    state, set, all, turn,
    volume(value) { state.volume = value; keep('volume', value); if (gain) gain.gain.value = value / 100 },
    shake(on) { state.vibrate = on; keep('vibrate', on ? 'yes' : 'no') },
  };
})();
