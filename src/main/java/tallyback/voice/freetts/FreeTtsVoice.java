package tallyback.voice.freetts;

import com.sun.speech.freetts.en.us.cmu_us_kal.KevinVoiceDirectory;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import tallyback.audio.Clip;
import tallyback.voice.Voice;

/** A man's voice made of diphones, in the jar; needs nothing installed. */
public final class FreeTtsVoice implements Voice {

  private static final String SIXTEEN_KILOHERTZ = "kevin16";

  private final com.sun.speech.freetts.Voice voice;

  private FreeTtsVoice(com.sun.speech.freetts.Voice voice) {
    this.voice = voice;
  }

  /** Loads the voice, which takes about a second. */
  public static Voice open() {
    com.sun.speech.freetts.Voice voice =
        Arrays.stream(new KevinVoiceDirectory().getVoices())
            .filter(each -> each.getName().equals(SIXTEEN_KILOHERTZ))
            .findFirst()
            .orElseThrow(() -> new IllegalStateException("the jar holds no voice; build it again"));
    voice.allocate();
    return new FreeTtsVoice(voice);
  }

  /**
   * How a word is most likely said, from its letters; needs no voice to be opened.
   *
   * @param word a word in lower case
   * @return ARPAbet phones without stress marks, or empty for a word without letters
   */
  public static Optional<String> sounds(String word) {
    return LetterSounds.of(word);
  }

  @Override
  public Clip speak(String text) {
    SampleCatcher catcher = new SampleCatcher();
    voice.setAudioPlayer(catcher);
    if (!text.isBlank() && !voice.speak(text.toLowerCase(Locale.ROOT))) {
      throw new IllegalStateException("the voice could not say: " + text);
    }
    return catcher.clip();
  }

  @Override
  public void close() {
    voice.deallocate();
  }
}
