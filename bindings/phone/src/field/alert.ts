/**
 * A sound and a shake of the phone, loud enough beside a compressor as far as a phone can be. Browsers let a
 * page sound only after somebody touched it.
 */
let audio: AudioContext | undefined;

/** Makes ready to sound: called at a touch. */
function ready(): void {
  audio ??= typeof AudioContext === "undefined" ? undefined : new AudioContext();
  if (audio?.state === "suspended") void audio.resume();
}
addEventListener("pointerdown", ready);

/** Three rising tones and three shakes; three times over, and as loud as it goes, for an alarm. */
export function alerts(loud: boolean): void {
  const once = [400, 150, 400, 150, 400];
  if ("vibrate" in navigator) navigator.vibrate(loud ? [...once, 150, ...once, 150, ...once] : once);
  if (audio?.state !== "running") return;
  const rising = [660, 880, 1175];
  for (const [at, pitch] of (loud ? [...rising, ...rising, ...rising] : rising).entries()) {
    const tone = audio.createOscillator();
    const volume = audio.createGain();
    tone.type = "square";
    tone.frequency.value = pitch;
    volume.gain.value = loud ? 1 : 0.3;
    tone.connect(volume).connect(audio.destination);
    tone.start(audio.currentTime + at * 0.45);
    tone.stop(audio.currentTime + at * 0.45 + 0.35);
  }
}
