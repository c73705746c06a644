package tallyback.dialogue.answers;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Statement;
import tallyback.model.Unit;
import tallyback.phrase.EntryGrammar;
import tallyback.phrase.Question.ItemTopic;
import tallyback.phrase.ReadBack;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Alignment;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Step;
import tallyback.plan.Plan.Torque;

/** What the plan says of its items. Where it says nothing, that is the answer. */
final class OfItems {

  private static final Pattern METRIC_THREAD =
      Pattern.compile("M(\\d+(?:\\.\\d+)?)(?:x(\\d+(?:\\.\\d+)?))?");

  private final Plan plan;
  private final Function<Statement, ReadBack> readBack;

  OfItems(Plan plan, Function<Statement, ReadBack> readBack) {
    this.plan = plan;
    this.readBack = readBack;
  }

  /** The item that a statement names, or null. */
  static @Nullable String itemOf(Statement statement) {
    if (statement instanceof Statement.ItemsMoved moved) {
      return moved.item();
    }
    if (statement instanceof Statement.TemporaryMoved moved) {
      return moved.item();
    }
    if (statement instanceof Statement.PartFitted fitted) {
      return fitted.item();
    }
    if (statement instanceof Statement.Aligned aligned) {
      return aligned.item();
    }
    return statement instanceof Statement.Tightened tightened ? tightened.item() : null;
  }

  /** Answers; an id that is no item's is said not to be known. */
  Told answer(ItemTopic topic, String id) {
    Optional<Item> item = plan.item(id);
    if (item.isEmpty()) {
      return Told.same(AnswerText.IT + ": " + AnswerText.WHICH_ITEM);
    }
    Told told =
        switch (topic) {
          case TORQUE ->
              ofGroups(item.get(), this::torque)
                  .map(OfItems::ofThePlan)
                  .orElse(Told.same(AnswerText.NO_TORQUE));
          case SIZE -> ofGroups(item.get(), this::size).orElse(Told.same(AnswerText.NO_SIZE));
          case ORDER -> ofGroups(item.get(), this::order).orElse(Told.same(AnswerText.NO_SEQUENCE));
          case WAY_ROUND -> wayRound(item.get());
          case PLACE -> place(item.get());
        };
    String subject = item.get().label() + ": ";
    return new Told(subject + told.spoken(), subject + told.shown());
  }

  /** Who asks for the torque of the pump wants that of its bolts. */
  private Optional<Told> ofGroups(Item item, Function<Item, Optional<Told>> figure) {
    Optional<Told> own = figure.apply(item);
    if (own.isPresent()) {
      return own;
    }
    List<String> spoken = new ArrayList<>();
    List<String> shown = new ArrayList<>();
    for (Item each : plan.items()) {
      if (item.id().equals(each.of()) && !each.temporary()) {
        figure
            .apply(each)
            .ifPresent(
                told -> {
                  spoken.add(each.label() + ", " + told.spoken());
                  shown.add("\n  " + each.label() + ": " + told.shown());
                });
      }
    }
    return spoken.isEmpty()
        ? Optional.empty()
        : Optional.of(new Told(Aloud.few(spoken, ". "), String.join("", shown)));
  }

  private static Told ofThePlan(Told figure) {
    return new Told(AnswerText.planSays(figure.spoken()), AnswerText.planSays(figure.shown()));
  }

  private Optional<Told> torque(Item item) {
    Torque torque = item.torque();
    if (torque == null) {
      return Optional.empty();
    }
    List<String> spoken = new ArrayList<>();
    List<String> shown = new ArrayList<>();
    spoken.add(EntryGrammar.spoken(torque.value()));
    shown.add(torque.value() + " " + tolerance(torque) + " (" + torque.toleranceFrom() + ")");
    if (torque.passes() > 1) {
      spoken.add(AnswerText.passes(EntryGrammar.spoken(torque.passes())));
      shown.add(AnswerText.passes(Integer.toString(torque.passes())));
    }
    if (torque.angle() != null) {
      spoken.add(AnswerText.turn(EntryGrammar.spoken(torque.angle())));
      shown.add(AnswerText.turn(torque.angle().toString()));
    }
    if (torque.threads() != null) {
      both(spoken, shown, AnswerText.threads(torque.threads()));
    }
    if (torque.sequence()) {
      both(spoken, shown, AnswerText.SEQUENCE);
    }
    if (item.renew() || item.stretch()) {
      both(spoken, shown, AnswerText.NEW_EACH_TIME);
    }
    return Optional.of(new Told(String.join(", ", spoken), String.join(" · ", shown)));
  }

  private static void both(List<String> spoken, List<String> shown, String text) {
    spoken.add(text);
    shown.add(text);
  }

  private static String tolerance(Torque torque) {
    return torque.plus().equals(torque.minus())
        ? "±" + torque.plus()
        : "+" + torque.plus() + " −" + torque.minus();
  }

  private Optional<Told> size(Item item) {
    List<String> spoken = new ArrayList<>();
    List<String> shown = new ArrayList<>();
    if (item.head() != null) {
      spoken.add(AnswerText.head(EntryGrammar.spokenSize(item.head())));
      shown.add(AnswerText.head(item.head().toString()));
    }
    if (item.thread() != null) {
      spoken.add(AnswerText.thread(thread(item.thread())));
      shown.add(AnswerText.thread(item.thread()));
    }
    if (item.length() != null) {
      spoken.add(AnswerText.length(EntryGrammar.spoken(item.length())));
      shown.add(AnswerText.length(item.length().toString()));
    }
    return spoken.isEmpty()
        ? Optional.empty()
        : Optional.of(new Told(String.join(". ", spoken), String.join(" · ", shown)));
  }

  /** "M8x1.25" is said "M eight by one point two five". */
  private static String thread(String written) {
    Matcher metric = METRIC_THREAD.matcher(written);
    if (!metric.matches()) {
      return Aloud.of(written);
    }
    String pitch = metric.group(2);
    return "M " + number(metric.group(1)) + (pitch == null ? "" : " by " + number(pitch));
  }

  private static String number(String digits) {
    return EntryGrammar.spoken(new Amount(new BigDecimal(digits), Unit.UNSAID));
  }

  private Optional<Told> order(Item item) {
    Torque torque = item.torque();
    if (torque == null) {
      return Optional.empty();
    }
    String sequence = torque.sequence() ? AnswerText.SEQUENCE : AnswerText.NO_SEQUENCE;
    return Optional.of(
        torque.passes() > 1
            ? new Told(
                AnswerText.passes(EntryGrammar.spoken(torque.passes())) + ". " + sequence,
                AnswerText.passes(Integer.toString(torque.passes())) + " · " + sequence)
            : Told.same(sequence));
  }

  private Told wayRound(Item item) {
    Alignment alignment = item.alignment();
    if (alignment == null) {
      return Told.same(AnswerText.NO_ALIGNMENT);
    }
    // Said as it is noted: "at twelve o'clock".
    ReadBack noted = readBack.apply(new Statement.Aligned(item.id(), alignment.angle()));
    String label = item.label() + " ";
    String spoken = AnswerText.mark(withoutLabel(noted.spoken(), label));
    return new Told(
        AnswerText.planSays(spoken),
        AnswerText.planSays(
            spoken + ", " + AnswerText.giveOrTake(alignment.tolerance().toString())));
  }

  private static String withoutLabel(String text, String label) {
    return text.startsWith(label) ? text.substring(label.length()) : text;
  }

  private Told place(Item item) {
    List<String> parts = new ArrayList<>();
    if (item.of() != null) {
      parts.add(AnswerText.at(plan.label(item.of())));
    }
    plan.steps().stream()
        .filter(step -> step.on().contains(item.id()))
        .reduce((first, later) -> later)
        .map(Step::label)
        .map(AnswerText::goesOnIn)
        .ifPresent(parts::add);
    if (item.temporary()) {
      parts.add(AnswerText.ONLY_FOR_THE_JOB);
    }
    return Told.same(parts.isEmpty() ? AnswerText.NO_PLACE : String.join(", ", parts));
  }
}
