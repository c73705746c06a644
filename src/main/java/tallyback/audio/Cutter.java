package tallyback.audio;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.List;

/**
 * Cuts utterances out of a stream of sound: from a little before the first speech to a little after
 * the last, pauses inside included, in constant memory.
 *
 * <p>Speech is told from noise by {@link SpeechDetector}. Decisions lag half a second behind the
 * stream, so that an utterance which begins with the stream finds the noise already known from its
 * own first gaps.
 *
 * <p>Thread rule: one thread. Feed it with {@link #accept}, and call {@link #finish} once at the
 * end of the stream.
 */
public final class Cutter {

  private static final int SHIFT = SpeechDetector.FRAME_SHIFT;
  private static final int SHIFT_MS = 10;

  /** Frames on each side whose loudest power makes the envelope. */
  private static final int REACH = 3;

  /** How many frames the decision lags behind. */
  private static final int LAG = 50;

  /** So many frames in a row must diverge before speech begins: a click does not. */
  private static final int ONSET_FRAMES = 4;

  private final CutterSettings settings;
  private final SpeechDetector detector;
  private final Deque<double[]> powers = new ArrayDeque<>();
  private short[] held = new short[Clip.SAMPLE_RATE_HZ];
  private int heldCount;
  private long firstHeld;
  private long framesIn;
  private long framesDecided;

  private boolean speaking;
  private long startFrame;
  private long lastSpeechFrame;
  private int speechFrames;
  private int run;
  private long lastEndFrame;

  /**
   * Begins at the beginning of a stream.
   *
   * @param settings how to cut
   */
  public Cutter(CutterSettings settings) {
    this.settings = settings;
    detector = new SpeechDetector(settings.quietestDbfs());
  }

  /**
   * Takes the next samples of the stream.
   *
   * @param samples 16 kHz mono
   * @param count how many of them, from the beginning of the array
   * @return the utterances that have ended with them, in order; mostly none
   */
  public List<Clip> accept(short[] samples, int count) {
    List<Clip> clips = new ArrayList<>();
    hold(samples, count);
    while (framesIn * SHIFT + SpeechDetector.windowSamples() <= firstHeld + heldCount) {
      powers.addLast(detector.powers(held, (int) (framesIn * SHIFT - firstHeld)));
      framesIn++;
      if (framesIn - framesDecided > LAG) {
        decide(clips);
      }
    }
    forget();
    return clips;
  }

  /**
   * Ends the stream.
   *
   * @return the utterances that were not finished yet; none or one
   */
  public List<Clip> finish() {
    List<Clip> clips = new ArrayList<>();
    while (framesDecided < framesIn) {
      decide(clips);
    }
    if (speaking) {
      end(clips);
    }
    return clips;
  }

  private void hold(short[] samples, int count) {
    if (heldCount + count > held.length) {
      held = Arrays.copyOf(held, Math.max(2 * held.length, heldCount + count));
    }
    System.arraycopy(samples, 0, held, heldCount, count);
    heldCount += count;
  }

  /** Lets go of what no clip can need any more. */
  private void forget() {
    long needed =
        (speaking ? startFrame : framesDecided - run) * SHIFT - samples(settings.preRollMs());
    int gone = (int) Math.max(0, Math.min(needed - firstHeld, heldCount));
    if (gone > held.length / 2) {
      System.arraycopy(held, gone, held, 0, heldCount - gone);
      heldCount -= gone;
      firstHeld += gone;
    }
  }

  private void decide(List<Clip> clips) {
    boolean speech =
        SpeechDetector.divergenceDb(envelope(), detector.noise()) > settings.divergenceDb();
    long frame = framesDecided++;
    if (powers.size() > framesIn - framesDecided + REACH) {
      powers.removeFirst();
    }
    run = speech ? run + 1 : 0;
    if (!speaking && run >= ONSET_FRAMES) {
      speaking = true;
      startFrame = frame - ONSET_FRAMES + 1;
      speechFrames = ONSET_FRAMES - 1;
    }
    if (speaking) {
      follow(frame, speech, clips);
    }
  }

  private void follow(long frame, boolean speech, List<Clip> clips) {
    if (speech) {
      lastSpeechFrame = frame;
      speechFrames++;
    }
    if (frame - lastSpeechFrame >= settings.hangoverMs() / SHIFT_MS) {
      end(clips);
    } else if ((frame - startFrame) * SHIFT_MS
        >= settings.longestMs() - settings.preRollMs() - settings.postRollMs()) {
      end(clips);
    }
  }

  /** The loudest power of each band around the frame to be decided. */
  private double[] envelope() {
    long behind = Math.min(REACH, framesDecided);
    double[] envelope = new double[0];
    int seen = 0;
    for (double[] frame : powers) {
      if (seen++ > behind + REACH) {
        break;
      }
      if (envelope.length == 0) {
        envelope = frame.clone();
      } else {
        for (int band = 0; band < envelope.length; band++) {
          envelope[band] = Math.max(envelope[band], frame[band]);
        }
      }
    }
    return envelope;
  }

  private void end(List<Clip> clips) {
    speaking = false;
    run = 0;
    if (speechFrames * SHIFT_MS < settings.shortestSpeechMs()) {
      return;
    }
    long from =
        Math.max(
            startFrame * SHIFT - samples(settings.preRollMs()),
            Math.max(firstHeld, lastEndFrame * SHIFT));
    long to =
        lastSpeechFrame * SHIFT + SpeechDetector.windowSamples() + samples(settings.postRollMs());
    to = Math.min(to, firstHeld + heldCount);
    short[] samples = Arrays.copyOfRange(held, (int) (from - firstHeld), (int) (to - firstHeld));
    clips.add(new Clip(samples, from * 1000 / Clip.SAMPLE_RATE_HZ));
    lastEndFrame = lastSpeechFrame;
  }

  private static long samples(int ms) {
    return (long) ms * Clip.SAMPLE_RATE_HZ / 1000;
  }
}
