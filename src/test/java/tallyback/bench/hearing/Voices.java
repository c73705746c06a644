package tallyback.bench.hearing;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import tallyback.audio.Clip;
import tallyback.audio.WavSource;

/**
 * Speaks phrases with the free voices of Debian's packages flite, festvox-kdlpc16k and espeak-ng,
 * and of the library FreeTTS.
 */
enum Voices {
  /** Tuning: American man, unit selection (CMU ARCTIC). */
  RMS("flite", "-voice", "rms", "-t", "TEXT", "-o", "FILE"),
  /** Tuning: the same man in a hurry. */
  RMS_QUICK(
      "flite", "-voice", "rms", "--setf", "duration_stretch=0.85", "-t", "TEXT", "-o", "FILE"),
  /** Tuning: American man, diphones. */
  KAL16("flite", "-voice", "kal16", "-t", "TEXT", "-o", "FILE"),
  /** Tuning: formant synthesis, a man. */
  ESPEAK_MAN("espeak-ng", "-v", "en-us+m3", "-s", "150", "-w", "FILE", "TEXT"),
  /** Tuning: formant synthesis, another woman than the one reported on. */
  ESPEAK_OTHER_WOMAN("espeak-ng", "-v", "en-us+f2", "-s", "150", "-w", "FILE", "TEXT"),
  /** Tuning: the man of KAL16 once more, by FreeTTS; so not in the list, but by name. */
  FREETTS(
      "java",
      "-Dfreetts.voices=com.sun.speech.freetts.en.us.cmu_us_kal.KevinVoiceDirectory",
      "-cp",
      "CLASSPATH",
      "com.sun.speech.freetts.FreeTTS",
      "-voice",
      "kevin16",
      "-dumpAudio",
      "FILE",
      "-text",
      "TEXT"),

  /** Report: American woman, unit selection (CMU ARCTIC). */
  SLT("flite", "-voice", "slt", "-t", "TEXT", "-o", "FILE"),
  /** Report: American man, diphones. */
  KED(
      "sh",
      "-c",
      "echo \"$0\" | text2wave -eval '(voice_ked_diphone)' -F 16000 -o \"$1\"",
      "TEXT",
      "FILE"),
  /** Report: formant synthesis, a woman. */
  ESPEAK_WOMAN("espeak-ng", "-v", "en-us+f3", "-s", "150", "-w", "FILE", "TEXT");

  static final List<Voices> TUNING = List.of(RMS, RMS_QUICK, KAL16, ESPEAK_MAN, ESPEAK_OTHER_WOMAN);
  static final List<Voices> REPORT = List.of(SLT, KED, ESPEAK_WOMAN);

  /** Silence around what is spoken, with a little noise, as a cutter would leave it. */
  private static final int MARGIN = Clip.SAMPLE_RATE_HZ / 5;

  @SuppressWarnings("ImmutableEnumChecker") // copied, never changed
  private final List<String> command;

  Voices(String... command) {
    this.command = List.of(command);
  }

  /** Who lent a voice of the bench his or her own; the name itself where it is nobody else's. */
  static String person(String voice) {
    return switch (voice) {
      case "RMS_QUICK" -> RMS.name();
      case "FREETTS" -> KAL16.name();
      default -> voice;
    };
  }

  /** Words that an American voice would mispronounce as the grammar spells them. */
  private static final Map<String, String> SPELLINGS =
      Map.ofEntries(
          Map.entry("litre", "liter"),
          Map.entry("litres", "liters"),
          Map.entry("metres", "meters"),
          Map.entry("millilitres", "milliliters"),
          Map.entry("millimetre", "millimeter"),
          Map.entry("millimetres", "millimeters"),
          Map.entry("centimetres", "centimeters"),
          Map.entry("kilometres", "kilometers"),
          Map.entry("torqued", "torkt"),
          Map.entry("retorqued", "re torkt"),
          Map.entry("thou", "thow"),
          Map.entry("c", "see"),
          Map.entry("p", "pee"),
          Map.entry("k", "kay"),
          Map.entry("r", "are"),
          Map.entry("m", "em"),
          Map.entry("u", "you"),
          Map.entry("s", "ess"),
          Map.entry("i", "eye"),
          Map.entry("nought", "naught"),
          Map.entry("mils", "mills"),
          Map.entry("mil", "mill"));

  private static String spelt(String word) {
    return SPELLINGS.getOrDefault(word, word);
  }

  /** Speaks a phrase; files are kept, so that a second run does not speak it again. */
  Clip speak(List<String> phrase, Path folder) throws IOException, InterruptedException {
    String text = String.join(" ", phrase.stream().map(Voices::spelt).toList());
    Path file =
        folder.resolve(name().toLowerCase(Locale.ROOT)).resolve(text.replace(' ', '_') + ".wav");
    if (!Files.exists(file)) {
      Files.createDirectories(file.getParent());
      // Under another name until it is whole, and one of this process's own: a run that is broken
      // off leaves no half phrase, and two may run at a time.
      Path unfinished = file.resolveSibling("unfinished-" + ProcessHandle.current().pid() + ".wav");
      List<String> filled = new ArrayList<>();
      for (String word : command) {
        filled.add(
            switch (word) {
              case "TEXT" -> text;
              case "FILE" -> unfinished.toString();
              case "CLASSPATH" -> System.getProperty("java.class.path");
              default -> word;
            });
      }
      Process process =
          new ProcessBuilder(filled)
              .redirectErrorStream(true)
              .redirectOutput(ProcessBuilder.Redirect.DISCARD)
              .start();
      if (process.waitFor() != 0) {
        throw new IOException(
            "cannot speak with "
                + command.get(0)
                + "; install flite, espeak-ng, festival and festvox-kdlpc16k");
      }
      Files.move(unfinished, file, StandardCopyOption.REPLACE_EXISTING);
    }
    try (WavSource source = WavSource.open(file)) {
      return withMargins(source.readAll());
    }
  }

  private static Clip withMargins(Clip spoken) {
    Random random = new Random(1);
    short[] samples = new short[spoken.length() + 2 * MARGIN];
    for (int i = 0; i < samples.length; i++) {
      int said = i >= MARGIN && i < MARGIN + spoken.length() ? spoken.sample(i - MARGIN) : 0;
      samples[i] =
          (short)
              Math.max(
                  Short.MIN_VALUE,
                  Math.min(Short.MAX_VALUE, said + Math.round(3 * random.nextGaussian())));
    }
    return new Clip(samples, 0);
  }
}
