package tallyback.bench.hearing;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import tallyback.app.Ear;
import tallyback.app.LiveHearing;
import tallyback.app.LoadedPlan;
import tallyback.audio.AudioRefused;
import tallyback.audio.Clip;
import tallyback.audio.Cut;
import tallyback.audio.Cutter;
import tallyback.audio.CutterSettings;

/**
 * How soon after the end of speech the result is there when sound comes in as it is spoken.
 *
 * <p>Command: {@code mvn -q -Pbench process-test-classes -Dbench.main=LiveBench} with the
 * properties of {@link HearingBench} that name speech, noise, ratios, n and seed; the grammar is a
 * plan. With {@code -Dbench.clock=real} the stream goes through {@link LiveHearing} at the speed of
 * speech; otherwise the clock is that of the stream and each decode takes the time that it took. On
 * standard output one JSON object for each set, noise and ratio; delays in milliseconds.
 */
public final class LiveBench {

  private static final int SAMPLES_A_MS = Clip.SAMPLE_RATE_HZ / 1000;
  private static final int PIECE = Clip.SAMPLE_RATE_HZ / 100;
  private static final int PIECE_MS = 10;
  private static final int WARM_UPS = 5;
  private static final int PAUSE_MS = 1000;

  private LiveBench() {}

  /** Runs it. */
  public static void main(String[] args) throws IOException, InterruptedException {
    try {
      BenchSettings settings = BenchSettings.of(HearingBench.properties());
      boolean isReal = System.getProperty("bench.clock", "").equals("real");
      LoadedPlan plan = LoadedPlan.of(settings.grammar());
      Path folder = settings.noise();
      List<Noise> noises = folder == null ? List.of() : Noise.of(folder, settings.noises());
      for (SpeechSet set : settings.sets(Language.read(settings.grammar()))) {
        TalkStream talk = talk(set, settings.seed());
        for (Snr snr : settings.snrs()) {
          List<@Nullable Noise> here = new ArrayList<>(snr.isClean() ? List.of() : noises);
          if (snr.isClean()) {
            here.add(null);
          }
          for (Noise noise : here) {
            Random random = new Random(settings.seed());
            Clip sound = noise == null ? talk.clean(random) : talk.in(noise, snr.db(), random);
            Delays delays = isReal ? real(plan, talk, sound) : simulated(plan, talk, sound);
            System.out.println(delays.json(set.name(), noise == null ? "none" : noise.name(), snr));
          }
        }
      }
    } catch (IllegalArgumentException | AudioRefused e) {
      System.err.println(e.getMessage());
      System.exit(2);
    }
  }

  private static TalkStream talk(SpeechSet set, long seed)
      throws IOException, InterruptedException {
    List<Clip> clips = new ArrayList<>();
    for (Utterance utterance : set.utterances()) {
      clips.add(utterance.sound().get());
    }
    return TalkStream.of(clips, new Random(seed));
  }

  /** At the speed of speech, through the class that hears live. */
  private static Delays real(LoadedPlan plan, TalkStream talk, Clip sound)
      throws InterruptedException {
    Delays delays = new Delays();
    try (LiveHearing<Ear.Heard> hearing = LiveHearing.start(plan, null)) {
      long warmUpMs = warmUp(hearing, talk);
      long decodes = hearing.decodes();
      long inVain = hearing.decodesInVain();
      long begun = System.nanoTime();
      Thread speaker = new Thread(() -> speak(hearing, sound, begun), "speaker");
      speaker.start();
      for (Optional<LiveHearing.Caught<Ear.Heard>> next = hearing.next();
          next.isPresent();
          next = hearing.next()) {
        double nowMs = (System.nanoTime() - begun) / 1e6;
        Clip clip = next.get().clip();
        if (clip.startMs() >= warmUpMs) {
          Clip shifted = new Clip(clip.samples(), clip.startMs() - warmUpMs);
          delays.take(talk, shifted, nowMs, next.get().afterEndNanos() / 1e6);
        }
      }
      delays.decodes = hearing.decodes() - decodes;
      delays.inVain = hearing.decodesInVain() - inVain;
    }
    return delays;
  }

  /**
   * The virtual machine is slow at first: the first phrase is said a few times before it counts.
   *
   * @return how long that lasts in the stream
   */
  private static long warmUp(LiveHearing<Ear.Heard> hearing, TalkStream talk)
      throws InterruptedException {
    short[] quiet = talk.clean(new Random(1)).samples();
    int length = (int) (talk.spoken().get(0).endMs() + PAUSE_MS) * SAMPLES_A_MS;
    short[] phrase = Arrays.copyOf(quiet, length);
    for (int i = 0; i < WARM_UPS; i++) {
      Arrays.fill(phrase, length - PAUSE_MS * SAMPLES_A_MS, length, (short) (1 + i % 2));
      hearing.accept(phrase, phrase.length);
      hearing.next();
    }
    return (long) WARM_UPS * length / SAMPLES_A_MS;
  }

  private static void speak(LiveHearing<Ear.Heard> hearing, Clip sound, long begun) {
    try {
      short[] samples = sound.samples();
      for (int from = 0; from < samples.length; from += PIECE) {
        long dueNanos = begun + (from / SAMPLES_A_MS + PIECE_MS) * 1_000_000L;
        long waitNanos = dueNanos - System.nanoTime();
        if (waitNanos > 0) {
          Thread.sleep(waitNanos / 1_000_000, (int) (waitNanos % 1_000_000));
        }
        short[] piece = Arrays.copyOfRange(samples, from, Math.min(samples.length, from + PIECE));
        hearing.accept(piece, piece.length);
      }
      hearing.finish();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** By the clock of the stream: one recogniser, busy as long as each decode took. */
  private static Delays simulated(LoadedPlan plan, TalkStream talk, Clip sound) {
    Delays delays = new Delays();
    try (Ear ear = Ear.open(plan, null)) {
      Recogniser recogniser = new Recogniser(ear, delays);
      Cutter cutter = new Cutter(CutterSettings.defaults());
      short[] samples = sound.samples();
      for (int from = 0; from < samples.length; from += PIECE) {
        short[] piece = Arrays.copyOfRange(samples, from, Math.min(samples.length, from + PIECE));
        double nowMs = (double) (from + piece.length) / SAMPLES_A_MS;
        for (Cut cut : cutter.follow(piece, piece.length)) {
          recogniser.take(talk, cut, nowMs);
        }
      }
      for (Cut cut : cutter.finishFollowing()) {
        recogniser.take(talk, cut, (double) sound.durationMs());
      }
    }
    return delays;
  }

  /** What {@link LiveHearing} does, by another clock. */
  private static final class Recogniser {
    private final Ear ear;
    private final Delays delays;
    private double freeMs;
    private @Nullable Clip ahead;
    private boolean isWarm;

    Recogniser(Ear ear, Delays delays) {
      this.ear = ear;
      this.delays = delays;
    }

    void take(TalkStream talk, Cut cut, double nowMs) {
      if (cut instanceof Cut.Likely likely) {
        decode(likely.clip(), nowMs);
        ahead = likely.clip();
      } else if (cut instanceof Cut.WentOn) {
        delays.inVain += ahead == null ? 0 : 1;
        ahead = null;
      } else if (cut instanceof Cut.Ended ended) {
        if (ahead == null || !ended.clip().equals(ahead)) {
          decode(ended.clip(), nowMs);
        }
        ahead = null;
        double readyMs = Math.max(nowMs, freeMs);
        delays.take(talk, ended.clip(), readyMs, readyMs - nowMs);
      }
    }

    private void decode(Clip clip, double nowMs) {
      for (int i = 0; i < 5 && !isWarm; i++) {
        ear.entry(clip);
      }
      isWarm = true;
      long begun = System.nanoTime();
      ear.entry(clip);
      freeMs = Math.max(nowMs, freeMs) + (System.nanoTime() - begun) / 1e6;
      delays.decodes++;
    }
  }

  /** What was measured, one number an utterance. */
  private static final class Delays {
    private final List<Double> afterSpeech = new ArrayList<>();
    private final List<Double> afterEnd = new ArrayList<>();
    private final List<Double> lengths = new ArrayList<>();
    private long decodes;
    private long inVain;

    /** A clip of which nothing was spoken, or of which the end is in another clip, counts not. */
    void take(TalkStream talk, Clip clip, double readyMs, double afterEndMs) {
      CutCounts.Spoken last = null;
      for (CutCounts.Spoken each : talk.spoken()) {
        last = each.overlapMs(clip) > 0 ? each : last;
      }
      if (last != null && clip.endMs() >= last.endMs() - CutCounts.TOLERATED_MS) {
        afterSpeech.add(readyMs - last.endMs());
        afterEnd.add(afterEndMs);
        lengths.add((double) clip.durationMs());
      }
    }

    String json(String set, String noise, Snr snr) {
      return String.format(
          Locale.ROOT,
          "{\"set\":\"%s\",\"noise\":\"%s\",\"snrDb\":%s,\"n\":%d,\"clipMedianMs\":%.0f,"
              + "\"speechToResultMedianMs\":%.0f,\"speechToResultP95Ms\":%.0f,"
              + "\"endToResultMedianMs\":%.0f,\"endToResultP95Ms\":%.0f,"
              + "\"decodes\":%d,\"inVain\":%d}",
          set,
          noise,
          snr.isClean() ? "null" : snr.number(),
          afterSpeech.size(),
          quantile(lengths, 0.5),
          quantile(afterSpeech, 0.5),
          quantile(afterSpeech, 0.95),
          quantile(afterEnd, 0.5),
          quantile(afterEnd, 0.95),
          decodes,
          inVain);
    }

    private static double quantile(List<Double> values, double share) {
      if (values.isEmpty()) {
        return Double.NaN;
      }
      List<Double> sorted = values.stream().sorted().toList();
      return sorted.get((int) Math.ceil(share * sorted.size()) - 1);
    }
  }
}
