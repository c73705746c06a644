package tallyback.bench.hearing;

import io.github.givimad.libfvadjni.VoiceActivityDetector;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import tallyback.audio.Clip;
import tallyback.audio.CutterSettings;

/**
 * The detector of WebRTC (Gaussian mixtures over six bands, by the package libfvad) in its
 * strictest mode, with the same hangover and margins as the program's own cutter: what a ready-made
 * one would do in its place.
 */
final class ReadyMade implements Cutting {

  private static final int FRAME = Clip.SAMPLE_RATE_HZ / 100;
  private static final int FRAME_MS = 10;
  private static final int ONSET_FRAMES = 4;

  private final CutterSettings settings = CutterSettings.defaults();

  private ReadyMade() {}

  /** The detector, unless this machine is none that its package has a native part for. */
  static Optional<Cutting> detector() {
    try {
      VoiceActivityDetector.loadLibrary();
      return Optional.of(new ReadyMade());
    } catch (IOException | UnsatisfiedLinkError e) {
      System.err.println("the ready-made detector can't be loaded here: " + e.getMessage());
      return Optional.empty();
    }
  }

  @Override
  public String name() {
    return "webrtc";
  }

  @Override
  public List<Clip> cut(Clip sound) {
    try (VoiceActivityDetector detector = VoiceActivityDetector.newInstance()) {
      detector.setMode(VoiceActivityDetector.Mode.VERY_AGGRESSIVE);
      detector.setSampleRate(VoiceActivityDetector.SampleRate.S16000);
      short[] samples = sound.samples();
      boolean[] speech = new boolean[samples.length / FRAME];
      for (int i = 0; i < speech.length; i++) {
        speech[i] = detector.process(Arrays.copyOfRange(samples, i * FRAME, (i + 1) * FRAME));
      }
      return clips(samples, speech);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private List<Clip> clips(short[] samples, boolean[] speech) {
    List<Clip> clips = new ArrayList<>();
    int first = -1;
    int last = -1;
    int count = 0;
    int run = 0;
    for (int i = 0; i < speech.length; i++) {
      run = speech[i] ? run + 1 : 0;
      if (first < 0 && run == ONSET_FRAMES) {
        first = i - ONSET_FRAMES + 1;
        count = ONSET_FRAMES - 1;
      }
      if (first >= 0 && speech[i]) {
        last = i;
        count++;
      }
      boolean ends =
          (i - last) * FRAME_MS >= settings.hangoverMs()
              || (i - first) * FRAME_MS >= settings.longestMs()
              || i == speech.length - 1;
      if (first >= 0 && ends) {
        if (count * FRAME_MS >= settings.shortestSpeechMs()) {
          clips.add(clip(samples, first, last));
        }
        first = -1;
      }
    }
    return clips;
  }

  private Clip clip(short[] samples, int first, int last) {
    int from = Math.max(0, first * FRAME - settings.preRollMs() * FRAME / FRAME_MS);
    int to =
        Math.min(samples.length, (last + 1) * FRAME + settings.postRollMs() * FRAME / FRAME_MS);
    return new Clip(Arrays.copyOfRange(samples, from, to), from * 1000L / Clip.SAMPLE_RATE_HZ);
  }
}
