package tallyback.bench.hearing;

import java.util.ArrayList;
import java.util.List;
import tallyback.audio.Clip;
import tallyback.audio.Cutter;
import tallyback.audio.CutterSettings;

/** A way to cut utterances out of a stream. */
interface Cutting {

  /** How it is called in tables. */
  String name();

  /** Cuts a whole stream. */
  List<Clip> cut(Clip sound);

  /** The program's own. */
  static Cutting own() {
    return new Cutting() {
      @Override
      public String name() {
        return "own";
      }

      @Override
      public List<Clip> cut(Clip sound) {
        Cutter cutter = new Cutter(CutterSettings.defaults());
        List<Clip> clips = new ArrayList<>(cutter.accept(sound.samples(), sound.length()));
        clips.addAll(cutter.finish());
        return clips;
      }
    };
  }
}
