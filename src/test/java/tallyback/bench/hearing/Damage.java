package tallyback.bench.hearing;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.Collectors;
import tallyback.audio.Clip;
import tallyback.audio.LevelMeter;

/**
 * What may be wrong with the sound of an utterance, other than noise. Each is a pure function: the
 * same clip, second voice and seed give the same sound. The figures in it are choices of our own,
 * no source.
 */
enum Damage {
  CLIPPING1("driven until 1 % of the samples are clipped") {
    @Override
    Clip of(Clip speech, Clip second, Random random) {
      return clipped(samples(speech), 0.01);
    }
  },
  CLIPPING10("driven until 10 % of the samples are clipped") {
    @Override
    Clip of(Clip speech, Clip second, Random random) {
      return clipped(samples(speech), 0.1);
    }
  },
  OFFSET("a constant of 10 % of full scale on top") {
    @Override
    Clip of(Clip speech, Clip second, Random random) {
      return cut(Arrays.stream(samples(speech)).map(each -> each + FULL / 10).toArray());
    }
  },
  HUM50("mains hum of 50 Hz and its multiples to 1 kHz, each as much weaker, 10 dB below speech") {
    @Override
    Clip of(Clip speech, Clip second, Random random) {
      return hum(speech, 50, random);
    }
  },
  HUM60("mains hum of 60 Hz and its multiples to 1 kHz, each as much weaker, 10 dB below speech") {
    @Override
    Clip of(Clip speech, Clip second, Random random) {
      return hum(speech, 60, random);
    }
  },
  MUTED("nothing but zeros") {
    @Override
    Clip of(Clip speech, Clip second, Random random) {
      return new Clip(new short[speech.length()], 0);
    }

    @Override
    boolean leavesAnEntry() {
      return false;
    }
  },
  DROPOUT("half a second of zeros, anywhere in the middle four fifths") {
    @Override
    Clip of(Clip speech, Clip second, Random random) {
      short[] samples = speech.samples();
      int gap = Math.min(Clip.SAMPLE_RATE_HZ / 2, samples.length / 2);
      int first = samples.length / 10;
      int from = first + random.nextInt(Math.max(1, samples.length * 9 / 10 - gap - first));
      Arrays.fill(samples, from, from + gap, (short) 0);
      return new Clip(samples, 0);
    }
  },
  SECOND6("a second voice all through it, 6 dB fainter") {
    @Override
    Clip of(Clip speech, Clip second, Random random) {
      return with(speech, new Noise("second", second).stretch(speech.length(), random), 6);
    }
  },
  SECOND0("a second voice all through it, as loud") {
    @Override
    Clip of(Clip speech, Clip second, Random random) {
      return with(speech, new Noise("second", second).stretch(speech.length(), random), 0);
    }
  },
  LONG("the same thing said over and over for 40 s, pauses of 0.1 to 0.4 s") {
    @Override
    Clip of(Clip speech, Clip second, Random random) {
      return repeated(TalkStream.trimmed(speech), random);
    }

    @Override
    boolean leavesAnEntry() {
      return false;
    }
  },
  WHISPER("whispered: noise through the vocal tract (linear prediction), 15 dB fainter, hiss") {
    @Override
    Clip of(Clip speech, Clip second, Random random) {
      return faint(new Whisper().of(samples(speech), random), 15, random);
    }
  },
  SHOUT("shouted: +6 dB above 1 kHz, then 20 dB up from -26 dB of full scale, into clipping") {
    @Override
    Clip of(Clip speech, Clip second, Random random) {
      double[] samples = samples(speech);
      double[] low = lowPassed(samples, 1000);
      double gain = Math.pow(10, (20 - 26 - LevelMeter.measure(speech).activeDbfs()) / 20);
      for (int i = 0; i < samples.length; i++) {
        samples[i] = gain * (2 * samples[i] - low[i]);
      }
      return cut(samples);
    }
  },
  TURNED("head turned away: low-pass of first order at 1.75 kHz, 12 dB fainter, hiss") {
    @Override
    Clip of(Clip speech, Clip second, Random random) {
      return faint(lowPassed(samples(speech), 1750), 12, random);
    }
  };

  private static final double FULL = Short.MAX_VALUE;
  private static final int LONG_MS = 40_000;
  private static final int HIGHEST_HUM_HZ = 1000;

  /** The faint hiss of a quiet room, which doesn't get fainter with the voice. */
  private static final double HISS = 3;

  private final String words;

  Damage(String words) {
    this.words = words;
  }

  /** Damages an utterance; the second voice is for those that need one. */
  abstract Clip of(Clip speech, Clip second, Random random);

  /** Whether what was said is still one entry, in whatever state; if not, rejected is right. */
  boolean leavesAnEntry() {
    return true;
  }

  /** Its name in every table. */
  String label() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** What it is, in words. */
  String words() {
    return words;
  }

  /** Reads names, or {@code all}. */
  static List<Damage> list(List<String> names) {
    List<Damage> damages = new ArrayList<>();
    for (String name : names) {
      if (name.equals("all")) {
        damages.addAll(List.of(values()));
      } else {
        damages.add(of(name));
      }
    }
    return damages;
  }

  private static Damage of(String name) {
    return Arrays.stream(values())
        .filter(damage -> damage.label().equals(name))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "bench.damage: expected all or some of "
                        + Arrays.stream(values())
                            .map(Damage::label)
                            .collect(Collectors.joining(", "))
                        + "; found "
                        + name));
  }

  private static double[] samples(Clip clip) {
    double[] samples = new double[clip.length()];
    for (int i = 0; i < samples.length; i++) {
      samples[i] = clip.sample(i);
    }
    return samples;
  }

  /** What is over full scale is cut off there, as a sound input does. */
  private static Clip cut(double[] samples) {
    short[] cut = new short[samples.length];
    for (int i = 0; i < cut.length; i++) {
      cut[i] = (short) Math.max(Short.MIN_VALUE, Math.min(FULL, Math.rint(samples[i])));
    }
    return new Clip(cut, 0);
  }

  private static Clip clipped(double[] samples, double share) {
    double[] sizes = Arrays.stream(samples).map(Math::abs).sorted().toArray();
    double gain = FULL / Math.max(1, sizes[(int) (sizes.length * (1 - share))]);
    return cut(Arrays.stream(samples).map(each -> gain * each).toArray());
  }

  private static Clip hum(Clip speech, int mainsHz, Random random) {
    double[] hum = new double[speech.length()];
    for (int multiple = 1; multiple * mainsHz <= HIGHEST_HUM_HZ; multiple++) {
      double phase = 2 * Math.PI * random.nextDouble();
      double step = 2 * Math.PI * multiple * mainsHz / Clip.SAMPLE_RATE_HZ;
      for (int i = 0; i < hum.length; i++) {
        hum[i] += FULL / 4 * Math.sin(phase + step * i) / multiple;
      }
    }
    return with(speech, hum, 10);
  }

  /** Speech with something else so far below it, both by their active level. */
  private static Clip with(Clip speech, double[] other, double belowDb) {
    Clip heard = Mixer.clip(other);
    double levelDbfs = LevelMeter.measure(speech).activeDbfs();
    double otherDbfs = LevelMeter.measure(heard).activeDbfs();
    double gain = Math.pow(10, (levelDbfs - belowDb - otherDbfs) / 20);
    double[] sum = samples(speech);
    for (int i = 0; i < sum.length; i++) {
      sum[i] += gain * heard.sample(i);
    }
    return Mixer.clip(sum);
  }

  private static Clip repeated(double[] phrase, Random random) {
    double[] talk = new double[Clip.SAMPLE_RATE_HZ / 1000 * LONG_MS];
    int at = 0;
    while (at < talk.length) {
      System.arraycopy(phrase, 0, talk, at, Math.min(phrase.length, talk.length - at));
      at += phrase.length + Clip.SAMPLE_RATE_HZ / 10 * (1 + random.nextInt(4));
    }
    return faint(talk, 0, random);
  }

  private static double[] lowPassed(double[] samples, double cornerHz) {
    double keep = Math.exp(-2 * Math.PI * cornerHz / Clip.SAMPLE_RATE_HZ);
    double[] low = new double[samples.length];
    double last = 0;
    for (int i = 0; i < low.length; i++) {
      last = keep * last + (1 - keep) * samples[i];
      low[i] = last;
    }
    return low;
  }

  private static Clip faint(double[] samples, double fainterDb, Random random) {
    double gain = Math.pow(10, -fainterDb / 20);
    return cut(
        Arrays.stream(samples).map(each -> gain * each + HISS * random.nextGaussian()).toArray());
  }
}
