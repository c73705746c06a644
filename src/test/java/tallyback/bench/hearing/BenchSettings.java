package tallyback.bench.hearing;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tallyback.speech.ListeningMode;
import tallyback.speech.SecondKind;

/**
 * What a run of the bench is asked to do: properties {@code bench.*}, empty ones as if not there.
 *
 * @param speech folders of recordings; none means voices
 * @param voices the voices when no folder is named, or those named besides
 * @param grammar a JSGF file or a plan
 * @param noise a folder of noises, or null
 * @param noises which of them
 * @param shop how much of each noise the recogniser knows, and which part of it is heard
 * @param snrs the ratios
 * @param damages what else is to be wrong with the sound, each a row of its own
 * @param treatment what is done to all sound before it is heard
 * @param n the most utterances of a set
 * @param inNoise the most of them in each noise
 * @param seed draws utterances, phrases and stretches of noise
 * @param without speakers to leave out
 * @param mode how to listen
 * @param taught whether each voice is taught before it is heard: a voice by the lines of {@code
 *     teach}, a speaker of recordings by his or her other utterances
 * @param out the folder for what was heard, tables and picture
 * @param picture the file for the picture
 * @param spoken the folder that keeps what the voices spoke
 * @param second a program that is the second recogniser; empty for none
 * @param secondKind what its model has in common with the first one's
 */
record BenchSettings(
    List<Path> speech,
    List<Voices> voices,
    Path grammar,
    @Nullable Path noise,
    Noise.Half noises,
    Shop shop,
    List<Snr> snrs,
    List<Damage> damages,
    Treatment treatment,
    int n,
    int inNoise,
    long seed,
    Set<String> without,
    ListeningMode mode,
    boolean taught,
    Path out,
    Path picture,
    Path spoken,
    String second,
    SecondKind secondKind) {

  /** What is known of each noise before anything is said in it. */
  enum Shop {
    /** Nothing; speech is mixed with all of it. */
    NEW,
    /** Nothing; speech is mixed with its second half. For comparison with the next. */
    UNLEARNED,
    /** Its first half has been learned; speech is mixed with its second half. */
    LEARNED
  }

  private static final String ALL_RATIOS = "clean,20,15,10,5";

  BenchSettings {
    speech = List.copyOf(speech);
    voices = List.copyOf(voices);
    snrs = List.copyOf(snrs);
    damages = List.copyOf(damages);
    without = Set.copyOf(without);
  }

  /** Reads them. */
  static BenchSettings of(Map<String, String> properties) {
    Reader read = new Reader(properties);
    List<Path> speech = read.list("speech", "").stream().map(Path::of).toList();
    String noise = read.text("noise", "");
    List<Snr> snrs = Snr.list(read.text("snr", noise.isEmpty() ? "clean" : ALL_RATIOS));
    if (noise.isEmpty() && snrs.stream().anyMatch(snr -> !snr.isClean())) {
      throw new IllegalArgumentException(
          "bench.snr: a ratio needs noise; name a folder of it with -Dbench.noise");
    }
    Path out = Path.of(read.text("out", "target/bench"));
    return new BenchSettings(
        speech,
        voices(read.list("voices", speech.isEmpty() ? "report" : "")),
        Path.of(read.text("grammar", "demo-data/plan.yaml")),
        noise.isEmpty() ? null : Path.of(noise),
        read.one(Noise.Half.class, "noises", "all"),
        read.one(Shop.class, "shop", "new"),
        snrs,
        Damage.list(read.list("damage", "")),
        read.one(Treatment.class, "treat", "none"),
        read.number("n", 300),
        read.number("inNoise", read.number("n", 300)),
        read.number("seed", 0),
        new TreeSet<>(read.list("without", "")),
        read.one(ListeningMode.class, "mode", "entries"),
        read.text("taught", "no").equals("yes"),
        out,
        Path.of(read.text("picture", out.resolve("bench.svg").toString())),
        Path.of(read.text("spoken", out.resolve("spoken").toString())),
        read.text("second", ""),
        read.one(SecondKind.class, "secondModel", "alike"));
  }

  private static List<Voices> voices(List<String> names) {
    List<Voices> voices = new ArrayList<>();
    for (String name : names) {
      switch (name) {
        case "report" -> voices.addAll(Voices.REPORT);
        case "tuning" -> voices.addAll(Voices.TUNING);
        default -> voices.add(Reader.constant(Voices.class, "voices", name));
      }
    }
    return voices;
  }

  /** The sets to be heard, in order. */
  List<SpeechSet> sets(Language language) throws IOException {
    List<SpeechSet> sets = new ArrayList<>();
    for (Voices voice : voices) {
      sets.add(SpeechSet.spoken(voice, language, n, seed, spoken));
    }
    for (Path folder : speech) {
      sets.addAll(SpeechSet.recorded(folder, language, n, seed, without));
    }
    Set<String> names = new TreeSet<>();
    for (SpeechSet set : sets) {
      if (!names.add(set.name())) {
        throw new IllegalArgumentException(
            "bench.speech: two folders are called " + set.name() + "; run them one by one");
      }
    }
    return sets.stream().map(set -> set.atMostInNoise(inNoise)).toList();
  }

  /** The folders that sound is read from. */
  List<Path> folders() {
    List<Path> folders = new ArrayList<>(speech);
    if (noise != null) {
      folders.add(noise);
    }
    return folders;
  }

  /** One property after the other. */
  private record Reader(Map<String, String> properties) {

    String text(String name, String otherwise) {
      String text = properties.getOrDefault("bench." + name, "").strip();
      return text.isEmpty() ? otherwise : text;
    }

    List<String> list(String name, String otherwise) {
      return Stream.of(text(name, otherwise).split(",", -1))
          .map(String::strip)
          .filter(each -> !each.isEmpty())
          .toList();
    }

    int number(String name, int otherwise) {
      String text = text(name, Integer.toString(otherwise));
      try {
        return Integer.parseInt(text);
      } catch (NumberFormatException e) {
        throw new IllegalArgumentException(
            "bench." + name + ": expected a whole number, found " + text, e);
      }
    }

    <E extends Enum<E>> E one(Class<E> kind, String name, String otherwise) {
      return constant(kind, name, text(name, otherwise));
    }

    static <E extends Enum<E>> E constant(Class<E> kind, String name, String text) {
      try {
        return Enum.valueOf(kind, text.toUpperCase(Locale.ROOT));
      } catch (IllegalArgumentException e) {
        throw new IllegalArgumentException(
            "bench."
                + name
                + ": expected one of "
                + List.of(kind.getEnumConstants()).toString().toLowerCase(Locale.ROOT)
                + ", found "
                + text,
            e);
      }
    }
  }
}
