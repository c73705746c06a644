package tallyback.bench.hearing;

import java.io.IOException;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tallyback.audio.Clip;

/**
 * A second recogniser on the clips of runs that are kept, made once more, so that the first need
 * not hear them again: {@code -Dbench.main=SecondOnKept -Dbench.speech=OUT1,OUT2
 * -Dbench.second=PROGRAM}, and {@code bench.seed}, {@code bench.noise} and {@code bench.noises} as
 * in those runs; {@code bench.snr}, {@code bench.n} and {@code bench.inNoise} say how much of them.
 * Voices only: what was recorded is left out. Prints the table of {@link BesideFirst}.
 */
public final class SecondOnKept {

  private SecondOnKept() {}

  /** Runs it. */
  public static void main(String[] args) throws IOException, InterruptedException {
    try {
      BenchSettings settings = BenchSettings.of(HearingBench.properties());
      run(settings, Language.read(settings.grammar()));
    } catch (IllegalArgumentException e) {
      System.err.println(e.getMessage());
      System.exit(2);
    }
  }

  private static void run(BenchSettings settings, Language language)
      throws IOException, InterruptedException {
    Map<String, Noise> noises = new HashMap<>();
    if (settings.noise() != null) {
      Noise.of(settings.noise(), settings.noises()).forEach(each -> noises.put(each.name(), each));
    }
    List<Heard> kept = ThresholdCurve.readNewest(settings.speech());
    try (BesideFirst second = BesideFirst.open(settings, language, "kept")) {
      Map<String, Integer> taken = new HashMap<>();
      for (Heard heard : kept) {
        Optional<Utterance.Sound> sound = sound(heard, noises, settings);
        String cell = String.join("\t", heard.set(), heard.noise(), heard.snr());
        if (sound.isPresent() && taken.merge(cell, 1, Integer::sum) <= most(heard, settings)) {
          second.hear(heard, sound.get());
        }
      }
      System.out.print(second.table());
      second.writeTable(System.err::println);
    }
  }

  private static int most(Heard heard, BenchSettings settings) {
    return settings.snrs().stream().noneMatch(each -> each.toString().equals(heard.snr()))
        ? 0
        : heard.noise().equals(Cell.NO_NOISE) ? settings.n() : settings.inNoise();
  }

  private static Optional<Utterance.Sound> sound(
      Heard heard, Map<String, Noise> noises, BenchSettings settings) {
    Optional<Voices> voice =
        Arrays.stream(Voices.values()).filter(each -> each.name().equals(heard.set())).findAny();
    boolean clean = heard.noise().equals(Cell.NO_NOISE);
    Noise noise = noises.get(heard.noise());
    if (voice.isEmpty() || (!clean && noise == null)) {
      return Optional.empty();
    }
    List<String> said = List.of(heard.said().split(" ", -1));
    return Optional.of(
        () -> {
          Clip spoken = voice.get().speak(said, settings.spoken());
          return noise == null
              ? spoken
              : Mixer.mix(
                  spoken,
                  noise,
                  Double.parseDouble(heard.snr().replaceAll("[^0-9.-]", "")),
                  HearingBench.seed(
                      heard.set(), heard.utterance(), heard.noise(), settings.seed()));
        });
  }
}
