package tallyback.cli;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tallyback.app.KnownVoices;
import tallyback.app.VoiceShelf;

/** Whose voice is listened for. */
final class VoiceOption {

  @Option(
      names = "--voice",
      paramLabel = "NAME",
      description =
          "Listen for this voice, which was taught; 'NAME is speaking' switches to another. Default:"
              + " $$TALLYBACK_VOICE, else anybody's.",
      defaultValue = "${env:TALLYBACK_VOICE}")
  private @Nullable String voice;

  /** The voices that were taught, with the one that is expected at first; tells what is wrong. */
  KnownVoices known(DataOption home, Console console) {
    String first = voice == null || voice.isBlank() || isAnybody(voice) ? null : voice;
    KnownVoices known = KnownVoices.on(new VoiceShelf(home.usualFolder()), first);
    known.notices().forEach(console.err()::println);
    return known;
  }

  private static boolean isAnybody(String name) {
    return name.strip().equalsIgnoreCase(VoiceShelf.ANYBODY);
  }
}
