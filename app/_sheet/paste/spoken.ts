/** Tells of a voice that lives on this machine, now or when the browser has loaded it; nothing typed is sent to a voice elsewhere. */
export function localVoice(tell: (voice: SpeechSynthesisVoice | null) => void): () => void {
  if (!('speechSynthesis' in window)) return () => undefined;
  const look = () => tell(speechSynthesis.getVoices().find((voice) => voice.localService && voice.lang.startsWith('en')) ?? null);
  look();
  speechSynthesis.addEventListener('voiceschanged', look);
  return () => {
    speechSynthesis.removeEventListener('voiceschanged', look);
    speechSynthesis.cancel();
  };
}

/** A sentence in that voice, a little slower than talk. */
export function spoken(words: string, voice: SpeechSynthesisVoice): SpeechSynthesisUtterance {
  const saying = new SpeechSynthesisUtterance(words);
  saying.voice = voice;
  saying.lang = voice.lang;
  saying.rate = 0.9;
  return saying;
}
