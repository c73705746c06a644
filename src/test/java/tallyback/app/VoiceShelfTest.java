package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.audio.Clip;
import tallyback.speech.adapt.Measured;
import tallyback.speech.adapt.TaughtVoice;
import tallyback.speech.adapt.VoiceProfile;

class VoiceShelfTest {

  private static final Clip SOUND = new Clip(new short[1600], 0);
  private static final TaughtVoice VOICE =
      new TaughtVoice(
          Instant.parse("2026-03-02T09:00:00Z"),
          new Measured(20, 15, 18, 0, 31),
          new Measured(20, 17, 19, 0, 44),
          new VoiceProfile("model", List.of(), List.of()));

  @TempDir private Path home;

  private VoiceShelf shelf() {
    return new VoiceShelf(home);
  }

  private static String wrong(Runnable use) {
    return String.join("\n", assertThrows(WrongUse.class, use::run).lines());
  }

  @Test
  void aNameIsAFolderNameAndNothingElse() {
    assertEquals("anna", VoiceShelf.name(" Anna "));
    assertEquals("j-2", VoiceShelf.name("J-2"));
    for (String bad :
        List.of("", "a/b", "../anna", "..", "/etc", "a\\b", "a b", "1anna", "änna", "anybody")) {
      assertTrue(wrong(() -> VoiceShelf.name(bad)).contains("such as --voice anna"), bad);
    }
    assertThrows(WrongUse.class, () -> VoiceShelf.name("a".repeat(33)));
  }

  @Test
  void nothingIsMadeBeforeSomethingIsKept() throws IOException {
    assertEquals(List.of(), shelf().names());
    assertEquals(List.of(), shelf().recorded("anna"));
    assertEquals(Optional.empty(), shelf().taught("anna"));
    assertFalse(shelf().forget("anna"));
    try (Stream<Path> files = Files.list(home)) {
      assertEquals(0, files.count());
    }
  }

  @Test
  void whatIsKeptIsForItsOwnerAlone() throws IOException {
    shelf().record("anna", 1, List.of("belly", "pan", "off"), SOUND);
    shelf().keep("anna", VOICE);
    try (Stream<Path> files = Files.walk(home.resolve("voices").resolve("anna"))) {
      for (Path file : files.toList()) {
        assertEquals(
            Files.isDirectory(file) ? "rwx------" : "rw-------",
            PosixFilePermissions.toString(Files.getPosixFilePermissions(file)),
            file.toString());
      }
    }
  }

  @Test
  void aLineSaidTwiceIsKeptTwice() throws IOException {
    shelf().record("anna", 1, List.of("belly", "pan", "off"), SOUND);
    shelf().record("anna", 2, List.of("engine", "cold"), SOUND);
    shelf().record("anna", 1, List.of("belly", "pan", "off"), SOUND);
    List<VoiceShelf.Recorded> recorded = shelf().recorded("anna");
    assertEquals(
        List.of("01a.wav belly pan off", "02a.wav engine cold", "01b.wav belly pan off"),
        recorded.stream()
            .map(each -> each.file().getFileName() + " " + String.join(" ", each.words()))
            .toList());
    assertEquals(SOUND.length(), recorded.get(2).lesson().clip().length());
  }

  @Test
  void aForgottenVoiceLeavesNothing() {
    shelf().record("anna", 1, List.of("engine", "cold"), SOUND);
    shelf().keep("anna", VOICE);
    assertEquals(VOICE, shelf().taught("anna").orElseThrow());
    assertTrue(shelf().forget("anna"));
    assertFalse(Files.exists(home.resolve("voices").resolve("anna")));
  }

  @Test
  void aDamagedVoiceIsNamedWithTheRemedyAndHindersNoOther() throws IOException {
    shelf().keep("anna", VOICE);
    shelf().keep("victor", VOICE);
    Path file = home.resolve("voices/anna/voice.json");
    Files.writeString(file, Files.readString(file).substring(0, 60));
    String told = wrong(() -> KnownVoices.on(shelf(), "anna"));
    assertTrue(told.startsWith(file.toString()) && told.contains("--again"), told);
    KnownVoices known = KnownVoices.on(shelf(), "victor");
    assertEquals("victor", known.first());
    assertEquals(List.of(told), known.notices());
  }

  @Test
  void aVoiceThatWasNotTaughtIsRefusedWithThoseThatWere() {
    shelf().keep("victor", VOICE);
    shelf().record("anna", 1, List.of("engine", "cold"), SOUND);
    assertTrue(wrong(() -> KnownVoices.on(shelf(), "anna")).contains("nothing was learned"));
    assertTrue(wrong(() -> KnownVoices.on(shelf(), "tobias")).contains("but victor;"));
    assertTrue(wrong(() -> KnownVoices.on(shelf(), "a/b")).contains("expected a name"));
  }

  @Test
  void aVoiceOfAnotherModelIsRefusedAndTheOthersAreKeptOut() {
    shelf().keep("anna", VOICE);
    assertTrue(
        wrong(() -> KnownVoices.on(shelf(), "anna").learnedWith("other")).contains("--again"));
    assertEquals(
        List.of(),
        List.copyOf(KnownVoices.on(shelf(), null).learnedWith("other").profiles().keySet()));
  }

  @Test
  void aDiskThatRefusesIsAFailureWithTheFile() throws IOException {
    Files.writeString(home.resolve("voices"), "a file where the folder ought to be");
    String told =
        String.valueOf(
            assertThrows(
                    MachineFailed.class,
                    () -> shelf().record("anna", 1, List.of("engine", "cold"), SOUND))
                .getMessage());
    assertTrue(told.contains("anna") && told.contains("check the disk"), told);
    told =
        String.valueOf(
            assertThrows(MachineFailed.class, () -> shelf().keep("anna", VOICE)).getMessage());
    assertTrue(told.contains("voice.json: can't be written"), told);
  }

  @Test
  void transcriptsThatAreWrongAreToldLineByLine() throws IOException {
    Files.write(home.resolve("a.wav"), new byte[50]);
    Files.writeString(
        home.resolve("transcripts.tsv"),
        "file\tspeaker\twords\na.wav\tanna\nb.wav\tanna\tengine cold\n");
    assertEquals(
        home.resolve("transcripts.tsv")
            + ":2: expected file, speaker and words between tabs\n"
            + home.resolve("transcripts.tsv")
            + ":3: there is no file b.wav",
        wrong(() -> VoiceShelf.recordedIn(home)));
  }
}
