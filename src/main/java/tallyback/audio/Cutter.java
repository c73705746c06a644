package tallyback.audio;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Cuts utterances out of a stream of sound: from a little before the first speech to a little after
 * the last, pauses inside included, in constant memory.
 *
 * <p>What rises above the floor of the noise ({@link SpeechDetector}) begins an utterance if it is
 * also louder than the loud moments of the noise ({@link NoiseCeiling}); {@link Spell} says what
 * belongs to it and when it has ended. Decisions lag a few frames behind the stream, and half a
 * second at its beginning, so that an utterance which begins with the stream finds the noise
 * already known from its own first gaps.
 *
 * <p>Two ways to use it, not to be mixed: {@link #accept} and {@link #finish} give utterances that
 * have ended; {@link #follow} and {@link #finishFollowing} say besides when one has probably ended,
 * for whoever wants to use the time until the pause is long enough. The clips are the same, and
 * don't depend on the sizes of the pieces in which the sound comes.
 *
 * <p>Thread rule: one thread.
 */
public final class Cutter {

  private static final int SHIFT = SpeechDetector.FRAME_SHIFT;
  private static final int SHIFT_MS = 10;

  /** Frames on each side whose loudest power makes the envelope. */
  private static final int REACH = 3;

  /** Frames on each side whose mean power makes the level. */
  private static final int LEVEL_REACH = 2;

  /** So many frames are heard before the first is judged. */
  private static final int FIRST_LOOK = 50;

  /** So many frames in a row must be speech before an utterance begins: a click has fewer. */
  private static final int ONSET_FRAMES = 5;

  private static final double ONSET_ABOVE_CEILING_DB = 2;

  /** Within an utterance a little less than at its onset is enough. */
  private static final double ONGOING_BELOW_ONSET_DB = 1;

  /** After so long far below its own level it is doubtful whether an utterance goes on. */
  private static final int WEAK_FRAMES = 120;

  /** How often a long utterance is looked at whether it is one. */
  private static final int CHECK_FRAMES = 400;

  /** Every other frame is looked at. */
  private static final int CHECK_STEP = 2;

  /** Where the voice sounds, sound is as regular as this. */
  private static final double VOICED = 0.8;

  /** Less of it is voiced: no speech. */
  private static final double LEAST_VOICED_SHARE = 0.22;

  private final CutterSettings settings;
  private final SpeechDetector detector;
  private final Voicing voicing = new Voicing();
  private final NoiseCeiling ceiling = new NoiseCeiling();
  private final Deque<double[]> powers = new ArrayDeque<>();
  private short[] held = new short[Clip.SAMPLE_RATE_HZ];
  private int heldCount;
  private long firstHeld;
  private long framesIn;
  private long framesDecided;

  /** The frames before this one that are not known to be noise yet. */
  private final Deque<Frame> recent = new ArrayDeque<>();

  private int run;
  private @Nullable Spell spell;
  private boolean likely;
  private long nextCheck;
  private long lastEndFrame;
  private boolean finished;

  private record Frame(double levelDb, boolean isActive) {}

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
    return ended(follow(samples, count));
  }

  /** Whether an utterance has begun that has not ended yet. */
  public boolean isUnderWay() {
    return spell != null;
  }

  /**
   * Ends the stream.
   *
   * @return the utterances that were not finished yet; mostly none or one
   */
  public List<Clip> finish() {
    return ended(finishFollowing());
  }

  private static List<Clip> ended(List<Cut> cuts) {
    List<Clip> clips = new ArrayList<>();
    for (Cut cut : cuts) {
      if (cut instanceof Cut.Ended ended) {
        clips.add(ended.clip());
      }
    }
    return clips;
  }

  /**
   * Takes the next samples of the stream.
   *
   * @param samples 16 kHz mono
   * @param count how many of them, from the beginning of the array
   * @return what has become of utterances with them, in order; mostly nothing
   */
  public List<Cut> follow(short[] samples, int count) {
    List<Cut> cuts = new ArrayList<>();
    hold(samples, count);
    while (endOfFrame(framesIn) <= firstHeld + heldCount) {
      powers.addLast(detector.powers(held, at(framesIn)));
      framesIn++;
      while (framesIn >= FIRST_LOOK && framesIn - framesDecided > REACH) {
        decide(cuts);
      }
    }
    forget();
    return cuts;
  }

  /**
   * Ends the stream.
   *
   * @return the ends of the utterances that were not finished yet
   */
  public List<Cut> finishFollowing() {
    finished = true;
    List<Cut> cuts = new ArrayList<>();
    while (framesDecided < framesIn) {
      decide(cuts);
    }
    if (spell != null) {
      end(spell, cuts);
    }
    return cuts;
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
    long first = spell != null ? spell.firstFrame() : framesDecided - recent.size();
    long needed = first * SHIFT - samples(settings.preRollMs());
    int gone = (int) Math.max(0, Math.min(needed - firstHeld, heldCount));
    if (gone > held.length / 2) {
      System.arraycopy(held, gone, held, 0, heldCount - gone);
      heldCount -= gone;
      firstHeld += gone;
    }
  }

  private int at(long frame) {
    return (int) (frame * SHIFT - firstHeld);
  }

  private void decide(List<Cut> cuts) {
    double divergence = SpeechDetector.divergenceDb(envelope(), detector.noise());
    double level = level();
    framesDecided++;
    if (powers.size() > framesIn - framesDecided + REACH) {
      powers.removeFirst();
    }
    if (spell == null) {
      await(new Frame(level, divergence > settings.divergenceDb()));
    } else {
      boolean active = divergence > settings.divergenceDb() - ONGOING_BELOW_ONSET_DB;
      followOn(spell, new Frame(level, active), cuts);
    }
  }

  /** Nobody speaks; does somebody begin? */
  private void await(Frame frame) {
    recent.addLast(frame);
    if (recent.size() > Spell.EDGE_FRAMES + ONSET_FRAMES) {
      ceiling.learn(recent.removeFirst().levelDb());
    }
    boolean speech = frame.isActive() && frame.levelDb() > ceiling.db() + ONSET_ABOVE_CEILING_DB;
    run = speech ? run + 1 : 0;
    if (run >= ONSET_FRAMES) {
      begin();
    }
  }

  private void begin() {
    Spell begun = new Spell(framesDecided - recent.size());
    int lead = recent.size() - run;
    for (Frame each : recent) {
      if (lead-- > 0) {
        begun.lead(each.levelDb(), each.isActive());
      } else {
        begun.onset(each.levelDb());
      }
    }
    recent.clear();
    run = 0;
    likely = false;
    nextCheck = framesDecided + CHECK_FRAMES;
    spell = begun;
  }

  private void followOn(Spell spell, Frame frame, List<Cut> cuts) {
    if (spell.add(frame.levelDb(), frame.isActive(), ceiling)) {
      if (likely) {
        likely = false;
        cuts.add(new Cut.WentOn());
      }
      if (spell.lastFrame() >= nextCheck) {
        check(spell);
      }
    }
    long now = spell.lastFrame();
    if (now - spell.lastSpeech() >= frames(settings.hangoverMs())
        || hasFaded(spell)
        || now - spell.firstFrame() >= longestFrames()) {
      end(spell, cuts);
    } else if (!likely) {
      settle(spell, cuts);
    }
  }

  /** Gives out the clip once a pause can't change it any more. */
  private void settle(Spell spell, List<Cut> cuts) {
    if (spell.lastFrame() < spell.lastSpeech() + Spell.EDGE_FRAMES) {
      return;
    }
    List<Spell.Part> parts = spokenParts(spell);
    if (parts.size() == 1 && endOf(spell, parts.get(0)) <= known()) {
      likely = true;
      cuts.add(new Cut.Likely(clip(spell, parts.get(0))));
    }
  }

  /** Whether only noise, far below the speech, holds the utterance open. */
  private boolean hasFaded(Spell spell) {
    if (spell.lastFrame() - spell.lastStrong() < WEAK_FRAMES) {
      return false;
    }
    if (isVoiced(spell, spell.lastStrong())) {
      spell.strengthen();
      return false;
    }
    return true;
  }

  /**
   * A machine that starts up is taken for speech at first. Where hardly any of the last seconds is
   * voiced it was none, and the level of it becomes part of what is known of the noise.
   */
  private void check(Spell spell) {
    nextCheck = spell.lastFrame() + CHECK_FRAMES;
    long from = spell.lastFrame() - CHECK_FRAMES;
    if (!isVoiced(spell, from)) {
      spell.teach(ceiling, from, spell.lastFrame());
      spell.reconsider(ceiling);
    }
  }

  /** Whether so much of the sound since a frame is voiced as is of speech. */
  private boolean isVoiced(Spell spell, long from) {
    int seen = 0;
    int voiced = 0;
    for (long frame = from; frame < spell.lastFrame(); frame += CHECK_STEP) {
      if (spell.isActive(frame)) {
        seen++;
        voiced += voicing.of(held, at(frame)) > VOICED ? 1 : 0;
      }
    }
    return voiced >= LEAST_VOICED_SHARE * seen;
  }

  private long longestFrames() {
    return frames(settings.longestMs() - settings.preRollMs() - settings.postRollMs());
  }

  private List<Spell.Part> spokenParts(Spell spell) {
    List<Spell.Part> spoken = new ArrayList<>();
    for (Spell.Part part : spell.parts(ceiling, frames(settings.hangoverMs()))) {
      if (part.speechFrames() * SHIFT_MS >= settings.shortestSpeechMs()) {
        spoken.add(part);
      }
    }
    return spoken;
  }

  private void end(Spell spell, List<Cut> cuts) {
    long learnt = spell.firstFrame();
    for (Spell.Part part : spokenParts(spell)) {
      cuts.add(new Cut.Ended(clip(spell, part)));
      spell.teach(ceiling, learnt, spell.edgeBefore(part) - 1);
      lastEndFrame = part.last();
      learnt = Math.min(part.last(), spell.lastStrong()) + Spell.EDGE_FRAMES + 1;
    }
    spell.teach(ceiling, learnt, spell.lastFrame());
    this.spell = null;
  }

  private Clip clip(Spell spell, Spell.Part part) {
    long from =
        Math.max(
            spell.edgeBefore(part) * SHIFT - samples(settings.preRollMs()),
            Math.max(firstHeld, lastEndFrame * SHIFT));
    long to = Math.min(endOf(spell, part), known());
    short[] samples = Arrays.copyOfRange(held, (int) (from - firstHeld), (int) (to - firstHeld));
    return new Clip(samples, from * 1000 / Clip.SAMPLE_RATE_HZ);
  }

  /** So many samples of the stream are known, not counting those of a frame that is not whole. */
  private long known() {
    return finished ? firstHeld + heldCount : endOfFrame(framesIn - 1);
  }

  private static long endOfFrame(long frame) {
    return frame * SHIFT + SpeechDetector.windowSamples();
  }

  /** Where the clip of a part ends, in samples of the stream. */
  private long endOf(Spell spell, Spell.Part part) {
    return endOfFrame(spell.edgeBehind(part)) + samples(settings.postRollMs());
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

  /** The level around the frame to be decided, in dB. */
  private double level() {
    long place = -Math.min(REACH, framesDecided);
    double sum = 0;
    int count = 0;
    for (double[] frame : powers) {
      if (place > LEVEL_REACH) {
        break;
      }
      if (place++ >= -LEVEL_REACH) {
        sum += Arrays.stream(frame).sum();
        count += frame.length;
      }
    }
    return detector.levelDb(sum / count);
  }

  private static int frames(int ms) {
    return ms / SHIFT_MS;
  }

  private static long samples(int ms) {
    return (long) ms * Clip.SAMPLE_RATE_HZ / 1000;
  }
}
