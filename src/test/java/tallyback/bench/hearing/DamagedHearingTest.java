package tallyback.bench.hearing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tallyback.app.Ear;
import tallyback.app.LoadedPlan;
import tallyback.audio.Clip;
import tallyback.audio.Cutter;
import tallyback.audio.CutterSettings;
import tallyback.speech.Judgement;

/**
 * The program's own cutter and ear on recordings of the demo under every damage: whatever else
 * becomes of them, no value is noted that was not said.
 */
@Tag("slow")
class DamagedHearingTest {

  private static final Map<String, String> SAID = new LinkedHashMap<>();

  static {
    SAID.put("016-091600.wav", "six bolts ten millimetre out of the splash guard");
    SAID.put(
        "026-092410.wav", "drained two point nine litres from the radiator drain into the big jug");
    SAID.put("101-110630.wav", "new bypass hose on");
    SAID.put("081-104700.wav", "new thermostat in");
  }

  private static LoadedPlan plan;
  private static Ear ear;
  private static List<Clip> clips;

  @BeforeAll
  static void open() throws IOException {
    plan = LoadedPlan.of(Path.of("demo-data/plan.yaml"));
    ear = Ear.open(plan, null);
    clips = new ArrayList<>();
    for (String file : SAID.keySet()) {
      clips.add(Recordings.read(Path.of("demo-data/audio", file)));
    }
  }

  @AfterAll
  static void close() {
    ear.close();
  }

  private static List<Ear.Heard> heard(Clip sound) {
    Cutter cutter = new Cutter(CutterSettings.defaults());
    List<Clip> cut = new ArrayList<>(cutter.accept(sound.samples(), sound.length()));
    cut.addAll(cutter.finish());
    return cut.stream().map(ear::entry).toList();
  }

  private static Object sense(String words) {
    return plan.grammar().sense(List.of(words.split(" ", -1)));
  }

  private static List<Ear.Heard> underDamage(Damage damage, int number) {
    Clip second = clips.get((number + 1) % clips.size());
    return heard(damage.of(clips.get(number), second, new Random(number)));
  }

  private static long noted(Damage damage) {
    long noted = 0;
    for (int number = 0; number < clips.size(); number++) {
      noted +=
          underDamage(damage, number).stream()
              .filter(each -> each.judgement() == Judgement.NOTE)
              .count();
    }
    return noted;
  }

  @Test
  void undamagedAllAreNotedRight() {
    List<String> said = List.copyOf(SAID.values());
    for (int number = 0; number < clips.size(); number++) {
      List<Ear.Heard> heard = heard(clips.get(number));
      assertEquals(1, heard.size());
      assertEquals(Judgement.NOTE, heard.get(0).judgement(), said.get(number));
      assertEquals(sense(said.get(number)), sense(heard.get(0).readings().get(0)));
    }
  }

  @ParameterizedTest
  @EnumSource(Damage.class)
  void nothingIsNotedThatWasNotSaid(Damage damage) {
    List<String> said = List.copyOf(SAID.values());
    for (int number = 0; number < clips.size(); number++) {
      for (Ear.Heard heard : underDamage(damage, number)) {
        if (heard.judgement() == Judgement.NOTE) {
          assertEquals(sense(said.get(number)), sense(heard.readings().get(0)), damage.words());
        }
      }
    }
  }

  @Test
  void anOffsetAndATurnedHeadAreHeardAsWellAsBefore() {
    assertEquals(clips.size(), noted(Damage.OFFSET));
    assertTrue(noted(Damage.TURNED) >= clips.size() - 1, "turned: " + noted(Damage.TURNED));
  }

  @Test
  void ofAMutedMicrophoneNothingIsEvenCut() {
    assertEquals(List.of(), underDamage(Damage.MUTED, 0));
  }

  @Test
  void aHalfSecondDropoutLeavesOneUtteranceOrItsTwoHalves() {
    for (int number = 0; number < 2; number++) {
      int utterances = underDamage(Damage.DROPOUT, number).size();
      assertTrue(utterances == 1 || utterances == 2, utterances + " of number " + number);
    }
  }

  @Test
  void fortySecondsWithoutAPauseAreCutAtThirty() {
    Cutter cutter = new Cutter(CutterSettings.defaults());
    Clip talk = Damage.LONG.of(clips.get(0), clips.get(1), new Random(1));
    List<Clip> cut = new ArrayList<>(cutter.accept(talk.samples(), talk.length()));
    cut.addAll(cutter.finish());
    assertEquals(2, cut.size());
    assertTrue(Math.abs(cut.get(0).durationMs() - 30_000) <= 500, cut.toString());
    assertTrue(ear.entry(cut.get(0)).judgement() != Judgement.NOTE, "half a minute is no entry");
  }
}
