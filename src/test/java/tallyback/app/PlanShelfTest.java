package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.app.PlanShelf.Card;
import tallyback.app.PlanShelf.Kept;
import tallyback.app.PlanShelf.Kind;
import tallyback.app.PlanShelf.Opened;

class PlanShelfTest {

  private static final String TEXT = "tallyback-plan: 1\nname: Belt of the mill # mine\n";

  @TempDir private Path folder;
  private Path plans;
  private Path given;
  private PlanShelf shelf;

  @BeforeEach
  void open() throws IOException {
    plans = folder.resolve("plans");
    given = folder.resolve("mill.yaml");
    Files.writeString(given, TEXT);
    shelf = new PlanShelf(plans, given);
  }

  @Test
  void theStartersAreThoseOfTheFolder() throws IOException {
    try (Stream<Path> files = Files.list(Path.of("seeds"))) {
      assertEquals(
          files
              .map(file -> file.getFileName().toString())
              .filter(name -> name.endsWith(".yaml"))
              .sorted()
              .toList(),
          PlanShelf.STARTERS.stream().map(name -> name + ".yaml").sorted().toList());
    }
  }

  @Test
  void listsTheOneNamedThenOnesOwnThenTheStarters() throws IOException {
    shelf.keepNew("Zebra", "tallyback-plan: 1\nname: zebra\n");
    shelf.keepNew("Anvil", "tallyback-plan: 1\nname: Anvil\n");
    Files.writeString(plans.resolve("notes.txt"), "no plan");
    Files.writeString(plans.resolve("zebra.before-1.yaml"), "a copy");

    List<Card> cards = shelf.list();
    assertEquals("Belt of the mill", cards.get(0).name());
    assertEquals(
        List.of("Anvil", "zebra"),
        cards.stream().filter(card -> card.kind() == Kind.OWN).map(Card::name).toList());
    assertEquals(3 + PlanShelf.STARTERS.size(), cards.size());
    Card oil = cards.get(3);
    assertEquals("starter:engine-oil-and-filter", oil.id());
    assertEquals(3, oil.toEnter());
  }

  @Test
  void keepsWhatSomebodyWroteByHandBesideOnce() throws IOException {
    Opened opened = shelf.open("given");
    Kept first = shelf.keep("given", TEXT + "items: [{say: [belt]}]\n", opened.hash());
    Kept second = shelf.keep("given", TEXT + "items: [{say: [old belt]}]\n", first.opened().hash());

    assertEquals("mill.before-1.yaml", first.copy().orElseThrow().getFileName().toString());
    assertEquals(TEXT, Files.readString(folder.resolve("mill.before-1.yaml")));
    assertEquals(Optional.empty(), second.copy());
    assertTrue(Files.readString(given).contains("old belt"));
  }

  @Test
  void doesNotWriteOverWhatSomebodyElseHasChangedMeanwhile() throws IOException {
    Opened opened = shelf.open("given");
    Files.writeString(given, TEXT + "# changed in another editor\n");

    PlanShelf.ChangedMeanwhile told =
        assertThrows(
            PlanShelf.ChangedMeanwhile.class,
            () -> shelf.keep("given", TEXT + "# mine\n", opened.hash()));
    assertEquals(
        given
            + ": was changed by somebody else since you opened it; keep yours under another name, or"
            + " open it anew",
        told.getMessage());
    assertEquals(TEXT + "# changed in another editor\n", Files.readString(given));
  }

  @Test
  void aStarterStaysAsItIs() {
    Opened opened = shelf.open("starter:wheel-change");

    assertEquals(
        "a starter stays as it is; keep yours under a name of its own",
        assertThrows(WrongUse.class, () -> shelf.keep("starter:wheel-change", "x", opened.hash()))
            .getMessage());
  }

  @Test
  void aNewOneGetsAFileOfItsOwnAndTheSchemaBesideIt() {
    Kept one = shelf.keepNew("Früh: ../Jahr / 2?", TEXT);
    Kept other = shelf.keepNew("Früh: ../Jahr / 2?", TEXT);
    Kept none = shelf.keepNew("???", TEXT);

    assertEquals("own:fruh-jahr-2.yaml", one.opened().card().id());
    assertEquals("own:fruh-jahr-2-2.yaml", other.opened().card().id());
    assertEquals("own:plan.yaml", none.opened().card().id());
    assertTrue(Files.exists(plans.resolve("plan.schema.json")));
    assertEquals(TEXT, shelf.open("own:fruh-jahr-2.yaml").text());
  }

  @Test
  void whatIsNoPlanYetIsKeptAllTheSame() {
    Kept kept = shelf.keepNew("half", "items: [\n");

    assertEquals("half.yaml", kept.opened().card().name());
    assertEquals("items: [\n", shelf.open("own:half.yaml").text());
  }

  @Test
  void noOtherFileIsReachedByAnyName() throws IOException {
    Files.createDirectories(plans);
    Files.writeString(folder.resolve("secret.yaml"), TEXT);
    for (String name :
        List.of(
            "own:../secret.yaml",
            "own:/etc/passwd",
            folder.resolve("secret.yaml").toString(),
            "starter:../plan.schema.json",
            "starter:",
            "own:",
            "")) {
      assertThrows(WrongUse.class, () -> shelf.open(name), name);
      assertThrows(WrongUse.class, () -> shelf.keep(name, "x", "y"), name);
    }
    assertEquals(TEXT, Files.readString(folder.resolve("secret.yaml")));
  }

  @Test
  void aFileThatIsNoTextIsShownAndToldWhenOpened() throws IOException {
    Files.createDirectories(plans);
    Files.write(plans.resolve("odd.yaml"), new byte[] {(byte) 0xff, (byte) 0xfe, 0});

    assertEquals(
        "odd.yaml",
        shelf.list().stream()
            .filter(card -> card.kind() == Kind.OWN)
            .findFirst()
            .orElseThrow()
            .name());
    WrongUse told = assertThrows(WrongUse.class, () -> shelf.open("own:odd.yaml"));
    assertTrue(told.lines().get(0).contains("expected text in UTF-8"), told.lines().toString());
  }

  @Test
  void whatIsTooLongIsTurnedAwayBeforeAnythingIsWritten() {
    String text = "#".repeat(1_000_001);
    byte[] bytes = text.getBytes(StandardCharsets.UTF_8);

    WrongUse told = assertThrows(WrongUse.class, () -> shelf.keepNew("long", text));
    assertTrue(told.lines().get(0).startsWith("the plan is longer than"), told.lines().toString());
    assertFalse(Files.exists(plans.resolve("long.yaml")), bytes.length + " bytes");
  }
}
