package tallyback.bench.hearing;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tallyback.speech.adapt.Lesson;
import tallyback.speech.adapt.TeachableRecogniser;
import tallyback.speech.adapt.VoiceProfile;

/**
 * Teaches an ear the voice it is about to hear: a voice that speaks by the lines that the program
 * gives its users, spoken in the quiet; a speaker of recordings by all his or her utterances but
 * the one to be heard.
 */
final class Teacher {

  private final SpeechSet set;
  private final BenchSettings settings;
  private final @Nullable Voices voice;
  private @Nullable VoiceProfile learned;
  private String learnedFor = "";

  Teacher(SpeechSet set, BenchSettings settings) {
    this.set = set;
    this.settings = settings;
    voice =
        Arrays.stream(Voices.values())
            .filter(each -> each.name().equals(set.name()))
            .findFirst()
            .orElse(null);
  }

  /** The lines that users are given. */
  static List<String> lines() throws IOException {
    try (InputStream in = Teacher.class.getResourceAsStream("/tallyback/teach/lines.txt")) {
      return new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8)
          .lines()
          .toList();
    }
  }

  /** Makes the ear expect the voice of an utterance. */
  void teach(Ear ear, Utterance next) throws IOException, InterruptedException {
    TeachableRecogniser recogniser = Objects.requireNonNull(ear.teachable(), "can't be taught");
    String whose = voice == null ? next.id() : voice.name();
    if (!whose.equals(learnedFor)) {
      List<Lesson> lessons = voice == null ? others(next) : lessons(voice);
      learned = lessons.isEmpty() ? null : recogniser.learn(lessons);
      learnedFor = whose;
    }
    recogniser.expect(learned);
  }

  private List<Lesson> lessons(Voices speaking) throws IOException, InterruptedException {
    List<Lesson> lessons = new ArrayList<>();
    for (String line : lines()) {
      List<String> words = List.of(line.split(" ", -1));
      lessons.add(new Lesson(speaking.speak(words, settings.spoken()), words));
    }
    return lessons;
  }

  private List<Lesson> others(Utterance next) throws IOException, InterruptedException {
    List<Lesson> lessons = new ArrayList<>();
    for (Utterance other : set.utterances()) {
      boolean same = other.speaker().equals(next.speaker()) && !other.speaker().isEmpty();
      if (same && !other.id().equals(next.id()) && !other.said().isEmpty()) {
        lessons.add(new Lesson(other.sound().get(), other.said()));
      }
    }
    return lessons;
  }
}
