package tallyback.phrase;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import tallyback.model.Statement;
import tallyback.model.Statement.FluidForm;
import tallyback.model.Statement.Thing;
import tallyback.plan.Plan;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Instrument;
import tallyback.plan.Plan.InstrumentKind;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Named;

/**
 * The spoken names of a plan, sorted by where in a phrase they may stand: for each rule that the
 * base grammar leaves open, each phrase and its tags. Adds the other ways in which people say a
 * name: "pump bolt" for one of the pump bolts, spanner for wrench, ground for earth.
 *
 * <p>Two things of one slot with the same name are faults, gathered in {@link #faults()}.
 *
 * <p>Thread rule: confined to the thread that makes it.
 */
final class PlanNames {

  /**
   * Names that say a state of the machine at the start of a phrase ("battery off"), whatever a plan
   * calls its items.
   */
  private static final Set<String> STATE_NAMES =
      Set.of(
          "battery",
          "battery lead",
          "battery earth lead",
          "battery ground lead",
          "earth lead",
          "ground lead",
          "negative lead",
          "key",
          "implement",
          "pressure",
          "cap",
          "radiator cap",
          "filler cap",
          "guards",
          "all guards",
          "heater",
          "engine",
          "machine",
          "wheels",
          "doors",
          "extraction",
          "tools",
          "bay");

  /** What the wrench shows, not what reaches the bolt. */
  static final String AT_THE_WRENCH = "at the wrench";

  private static final List<List<String>> SYNONYMS =
      List.of(
          List.of("wrench", "spanner"),
          List.of("earth", "ground"),
          List.of("disc", "rotor"),
          List.of("discs", "rotors"),
          List.of("coolant pump", "water pump"));

  /** What a name may be held by where no plan says it. Plugs and hoses have names of their own. */
  private static final Map<Thing, String> HELD = held();

  private static final Pattern NUMBERED = Pattern.compile("place .*");

  /** Numbered places that a number after them could run into. */
  private static final Pattern TWENTIES = Pattern.compile("place twenty( .*)?");

  /** A name of several things in the singular means one of them, whatever article it has. */
  private static final String ONE = "{count:1}";

  private static final Map<String, String> SIDES = sides();

  private static final Map<Thing, List<String>> NOUNS = nouns();

  private final Plan plan;
  private final List<GrammarFault> faults = new ArrayList<>();
  private final Map<String, Map<String, String>> slots = new LinkedHashMap<>();

  PlanNames(Plan plan) {
    this(plan, List.of());
  }

  /**
   * The names of a plan.
   *
   * @param voices the names of the voices that were taught
   */
  PlanNames(Plan plan, Collection<String> voices) {
    this.plan = plan;
    Map<String, String> items = slot("item", plan.items(), "item");
    Map<String, String> points = points();
    slots.put("item", items);
    slots.put("item_first", without(items, STATE_NAMES));
    Map<String, String> one = groups(items, false);
    slots.put("group", one);
    slots.put("groups", groups(items, true));
    slots.put("a_group", withArticle(oneOfSeveral(one)));
    fastened();
    Map<String, String> others = new LinkedHashMap<>(points);
    addAll(others, slot("place", plan.places(), "at"));
    addAll(others, fluidsAsSystems());
    slots.put("other_first", without(others, items.keySet()));
    slots.put("point", withSides(pointsAndOpenings(points)));
    Map<String, String> where = new LinkedHashMap<>(points);
    addAll(where, slot("place", plan.places(), "at"));
    items.forEach((name, tag) -> where.putIfAbsent(name, "{at:" + idOf(tag) + "}"));
    slots.put("where", withSides(where));
    slots.put("place_first", withoutTwenties(without(where, STATE_NAMES)));
    slots.put("vessel", instruments(InstrumentKind.VESSEL, "vessel"));
    slots.put("wrench", instruments(InstrumentKind.WRENCH, "wrench"));
    slots.put("gauge", instruments(InstrumentKind.GAUGE, "gauge"));
    slots.put("person", slot("person", plan.people(), "person"));
    slots.put("voice", voices(voices));
    slots.put("step", steps());
    slots.put("mark", marks());
    slots.put("substance", substances());
    slots.put("fluid_called", slot("fluid", plan.fluids(), "fluid"));
    Map<String, String> thing = without(things(false), items.keySet());
    slots.put("thing", thing);
    slots.put("things_many", without(things(true), items.keySet()));
    slots.put("a_thing", withArticle(thing));
    slots.put("torque_at", torqueAt());
    slots.put("in_order", inOrder());
    slots.put(
        "battery",
        items.containsKey("battery") || others.containsKey("battery")
            ? Map.of()
            : Map.of("battery", ""));
  }

  /** Each rule the base grammar leaves open, with its phrases and their tags. */
  Map<String, Map<String, String>> slots() {
    return slots;
  }

  /** Names that two things share. */
  List<GrammarFault> faults() {
    return faults.stream().distinct().toList();
  }

  /** The item that has exactly this spoken name. */
  static java.util.Optional<Item> itemCalled(Plan plan, String name) {
    return plan.items().stream()
        .filter(item -> item.say().stream().map(Spelling::ofName).anyMatch(name::equals))
        .findFirst();
  }

  private Map<String, String> slot(String what, List<? extends Named> things, String key) {
    Map<String, String> names = new LinkedHashMap<>();
    for (Named thing : things) {
      for (String said : thing.say()) {
        put(names, what, Spelling.ofName(said), "{" + key + ":" + thing.id() + "}", thing);
      }
    }
    // Only after all names that somebody wrote: a name made up here gives way to them.
    for (Named thing : things) {
      for (String said : thing.say()) {
        String tag = "{" + key + ":" + thing.id() + "}";
        String name = Spelling.ofName(said);
        List<String> same = variants(name);
        same.forEach(each -> names.putIfAbsent(each, tag));
        if (thing instanceof Item item && item.count() > 1 && key.equals("item")) {
          same.stream()
              .map(PlanNames::singular)
              .filter(each -> !same.contains(each))
              .forEach(each -> names.putIfAbsent(each, tag + " " + ONE));
        }
      }
    }
    return names;
  }

  private void put(Map<String, String> names, String what, String name, String tag, Named thing) {
    String earlier = names.putIfAbsent(name, tag);
    if (earlier != null && !earlier.equals(tag)) {
      faults.add(
          new GrammarFault(
              "the plan",
              1,
              "each " + what + " to have a name of its own",
              "\"" + name + "\" for both " + idOf(earlier) + " and " + thing.id(),
              "Change one of the two in the plan.",
              java.util.Optional.empty(),
              List.of(idOf(earlier), thing.id())));
    }
  }

  /** With a way back to nobody's voice in particular. */
  private static Map<String, String> voices(Collection<String> voices) {
    Map<String, String> names = new LinkedHashMap<>();
    voices.stream().sorted().forEach(name -> names.put(name, "{voice:" + name + "}"));
    if (!names.isEmpty()) {
      names.put(Question.OfSpeaker.ANYBODY, "{voice:" + Question.OfSpeaker.ANYBODY + "}");
    }
    return names;
  }

  private static String idOf(String tag) {
    return tag.substring(tag.indexOf(':') + 1, tag.indexOf('}'));
  }

  private static List<String> variants(String name) {
    List<String> all = new ArrayList<>();
    all.add(name);
    for (List<String> words : SYNONYMS) {
      for (String from : words) {
        for (String to : words) {
          String other = (" " + name + " ").replace(" " + from + " ", " " + to + " ").strip();
          if (!all.contains(other)) {
            all.add(other);
          }
        }
      }
    }
    return all;
  }

  /** "pump bolts" to "pump bolt"; names that don't end in a plain noun stay as they are. */
  private static String singular(String name) {
    int last = name.lastIndexOf(' ') + 1;
    String noun = name.substring(last);
    boolean known = NOUNS.values().stream().anyMatch(nouns -> nouns.contains(noun));
    return known && noun.endsWith("s") ? name.substring(0, name.length() - 1) : name;
  }

  private Map<String, String> points() {
    Map<String, String> names = new LinkedHashMap<>();
    for (FluidSystem system : plan.systems()) {
      addAll(names, slot("drain or fill point", joined(system.drains(), system.fills()), "at"));
    }
    addAll(names, slot("system", plan.systems(), "at"));
    return names;
  }

  /**
   * Without a plan any name may have fasteners: "belly pan bolts", "bolts at the belly pan". One
   * rule for all names, so that the graph doesn't hold each name once for each noun; in the grammar
   * of a plan it is empty.
   */
  private void fastened() {
    if (plan.basis() != Plan.Basis.NAMES) {
      List.of("fastened", "fastened_many", "fastened_named", "nameable")
          .forEach(rule -> slots.put(rule, Map.of()));
      return;
    }
    Map<String, String> holders = new LinkedHashMap<>();
    for (Item item : plan.items()) {
      if (!item.temporary()) {
        item.say().forEach(said -> holders.put(Spelling.ofName(said), "{item:" + item.id() + "}"));
      }
    }
    for (Plan.Place place : plan.places()) {
      place.say().forEach(said -> holders.put(Spelling.ofName(said), "{item:" + place.id() + "}"));
    }
    Map<String, String> numbered = slot("place", plan.places(), "at");
    numbered.keySet().removeIf(name -> !NUMBERED.matcher(name).matches());
    slots.put("nameable", numbered);
    slots.put("holder", withoutTwenties(holders));
    Map<String, String> twenties = new LinkedHashMap<>(holders);
    twenties.keySet().removeIf(name -> !TWENTIES.matcher(name).matches());
    slots.put("holder_in_the_twenties", twenties);
    Map<String, String> one = new LinkedHashMap<>();
    Map<String, String> several = new LinkedHashMap<>();
    HELD.forEach(
        (thing, noun) -> {
          one.put(noun, "{thing:" + thing + "} " + ONE);
          several.put(noun + "s", "{thing:" + thing + "}");
        });
    slots.put("held", one);
    slots.put("held_many", several);
    slots.put("fastened", fastened("<held>"));
    slots.put("fastened_many", fastened("<held_many>"));
    // Where a number may follow, no number may come before it.
    slots.put("fastened_named", Map.of("<holder> <held_many>", "{of:first}"));
  }

  private static Map<String, String> fastened(String held) {
    Map<String, String> phrases = new LinkedHashMap<>();
    phrases.put("<holder> " + held, "{of:first}");
    phrases.put(held + " at <holder_in_the_twenties>", "{of:first}");
    return phrases;
  }

  /** "Place twenty six bolts" may be six bolts at place twenty: nobody could tell. */
  private static Map<String, String> withoutTwenties(Map<String, String> names) {
    Map<String, String> rest = new LinkedHashMap<>(names);
    rest.keySet().removeIf(name -> TWENTIES.matcher(name).matches());
    return rest;
  }

  /**
   * What is counted: fasteners, and whatever there is more than one of. The names for one of them,
   * or those for several; a name that does not show which it is stands in both.
   */
  private Map<String, String> groups(Map<String, String> items, boolean several) {
    List<Item> some =
        plan.items().stream()
            .filter(item -> item.count() > 1 || StatementReader.isFastener(item))
            .toList();
    Map<String, String> names = slot("item", some, "item");
    names.keySet().retainAll(items.keySet());
    Map<String, Integer> counts = new LinkedHashMap<>();
    some.forEach(item -> counts.put(item.id(), item.count()));
    names
        .entrySet()
        .removeIf(
            name -> {
              boolean plural = !singular(name.getKey()).equals(name.getKey());
              boolean one = name.getValue().endsWith(ONE);
              boolean only = counts.getOrDefault(idOf(name.getValue()), 1) == 1;
              return several ? one || (only && !plural) : plural && !only;
            });
    return names;
  }

  private static Map<String, String> oneOfSeveral(Map<String, String> names) {
    Map<String, String> some = new LinkedHashMap<>(names);
    some.values().removeIf(tags -> !tags.endsWith(ONE));
    return some;
  }

  /** "A bolt", "an elbow nut": only the article that goes with the name. */
  private static Map<String, String> withArticle(Map<String, String> names) {
    Map<String, String> all = new LinkedHashMap<>();
    names.forEach(
        (name, tags) ->
            all.put(("aeiou".indexOf(name.charAt(0)) >= 0 ? "an " : "a ") + name, tags));
    return all;
  }

  private static List<Named> joined(List<? extends Named> first, List<? extends Named> second) {
    List<Named> all = new ArrayList<>(first);
    all.addAll(second);
    return all;
  }

  /** Fluid also runs out of opened hoses and plug holes. */
  private Map<String, String> pointsAndOpenings(Map<String, String> points) {
    Map<String, String> all = new LinkedHashMap<>(points);
    List<Item> openings =
        plan.items().stream()
            .filter(item -> item.thing() == Thing.HOSE || item.thing() == Thing.PLUG)
            .toList();
    addAll(all, slot("item", openings, "at"));
    return all;
  }

  /** "Coolant temperature" speaks of the system that holds the coolant, when only one does. */
  private Map<String, String> fluidsAsSystems() {
    Map<String, String> names = new LinkedHashMap<>();
    for (Plan.Fluid fluid : plan.fluids()) {
      List<FluidSystem> holders =
          plan.systems().stream().filter(system -> system.fluid().equals(fluid.id())).toList();
      if (holders.size() == 1) {
        fluid
            .say()
            .forEach(
                said ->
                    names.putIfAbsent(Spelling.ofName(said), "{at:" + holders.get(0).id() + "}"));
      }
    }
    return names;
  }

  private Map<String, String> instruments(InstrumentKind kind, String key) {
    List<Instrument> some =
        plan.instruments().stream().filter(each -> each.kind() == kind).toList();
    return slot("instrument", some, key);
  }

  /** A plan that calls a thing "bolt" has that as the answer to "where". */
  static String atTheBolt(Plan plan) {
    boolean taken =
        plan.named().stream()
            .flatMap(named -> named.say().stream())
            .map(Spelling::ofName)
            .anyMatch("bolt"::equals);
    return taken ? "at the fastener" : "at the bolt";
  }

  /** Only where the plan has an adapter that changes something: fewer words are heard better. */
  private Map<String, String> torqueAt() {
    boolean matters =
        plan.instruments().stream()
            .map(Instrument::adapter)
            .anyMatch(adapter -> adapter != null && adapter.changesTorque());
    if (!matters) {
      return Map.of();
    }
    Map<String, String> names = new LinkedHashMap<>();
    names.put(AT_THE_WRENCH, "{torque_at:AT_WRENCH}");
    names.put(atTheBolt(plan), "{torque_at:AT_BOLT}");
    return names;
  }

  /** Only where the plan has a sequence. */
  private Map<String, String> inOrder() {
    boolean matters =
        plan.items().stream()
            .map(Item::torque)
            .anyMatch(torque -> torque != null && torque.sequence());
    Map<String, String> names = new LinkedHashMap<>();
    if (matters) {
      names.put("in sequence", "{order:IN_SEQUENCE}");
      names.put("crosswise", "{order:CROSSWISE}");
    }
    return names;
  }

  private Map<String, String> steps() {
    Map<String, String> names = slot("step", plan.steps(), "step");
    for (int number = 1; number <= plan.steps().size(); number++) {
      String tag = "{step:" + plan.steps().get(number - 1).id() + "}";
      names.putIfAbsent("step " + NumberWords.cardinal(number), tag);
      names.putIfAbsent("step number " + NumberWords.cardinal(number), tag);
    }
    return names;
  }

  /** A plan without marks still lets "full" and "the mark" be said. */
  private Map<String, String> marks() {
    Map<String, String> names = new LinkedHashMap<>();
    plan.systems().forEach(system -> addAll(names, slot("level mark", system.marks(), "mark")));
    if (names.isEmpty()) {
      List.of("full", "mark", "full mark").forEach(name -> names.put(name, ""));
    }
    return names;
  }

  private Map<String, String> substances() {
    Map<String, String> names = slot("fluid", plan.fluids(), "fluid");
    Map<String, String> forms = new LinkedHashMap<>();
    forms.put("concentrate", tag(FluidForm.CONCENTRATE));
    forms.put("neat concentrate", tag(FluidForm.CONCENTRATE));
    forms.put("premix", tag(FluidForm.PREMIX));
    forms.put("ready mixed", tag(FluidForm.PREMIX));
    forms.put("water", tag(FluidForm.WATER));
    forms.put("distilled water", tag(FluidForm.WATER));
    Map<String, String> all = new LinkedHashMap<>(names);
    names.forEach(
        (name, fluid) -> {
          all.putIfAbsent(name + " concentrate", fluid + " " + tag(FluidForm.CONCENTRATE));
          all.putIfAbsent(name + " premix", fluid + " " + tag(FluidForm.PREMIX));
        });
    addAll(all, forms);
    return all;
  }

  private static String tag(FluidForm form) {
    return "{form:" + form.name() + "}";
  }

  private static Map<String, String> things(boolean several) {
    Map<String, String> names = new LinkedHashMap<>();
    NOUNS.forEach(
        (thing, nouns) ->
            nouns.stream()
                .filter(noun -> noun.endsWith("s") == several)
                .forEach(noun -> names.put(noun, "{thing:" + thing.name() + "}")));
    return names;
  }

  private static Map<String, String> sides() {
    Map<String, String> names = new LinkedHashMap<>();
    for (String form : List.of("%s", "%s side", "%s hand side")) {
      names.put(String.format(Locale.ROOT, form, "left"), Statement.LEFT_SIDE);
      names.put(String.format(Locale.ROOT, form, "right"), Statement.RIGHT_SIDE);
    }
    names.put("other side", Statement.OTHER_SIDE);
    names.put("other one", Statement.OTHER_SIDE);
    return names;
  }

  private static Map<Thing, String> held() {
    Map<Thing, String> nouns = new LinkedHashMap<>();
    for (Thing thing :
        List.of(
            Thing.BOLT,
            Thing.NUT,
            Thing.SCREW,
            Thing.STUD,
            Thing.WASHER,
            Thing.CLIP,
            Thing.CLAMP,
            Thing.PIN,
            Thing.CONNECTOR)) {
      nouns.put(thing, thing.name().toLowerCase(Locale.ROOT));
    }
    return nouns;
  }

  private static Map<Thing, List<String>> nouns() {
    Map<Thing, List<String>> nouns = new LinkedHashMap<>();
    for (Thing thing : Thing.values()) {
      String noun = thing.name().toLowerCase(Locale.ROOT);
      nouns.put(thing, new ArrayList<>(List.of(noun, noun + "s")));
    }
    nouns.remove(Thing.PART);
    add(nouns, Thing.BOLT, "cap screw", "cap screws");
    add(nouns, Thing.CLAMP, "hose clamp", "hose clamps");
    add(nouns, Thing.CONNECTOR, "vacuum line", "vacuum lines");
    add(nouns, Thing.HOSE, "pipe", "pipes");
    return nouns;
  }

  private static void add(Map<Thing, List<String>> nouns, Thing thing, String... more) {
    nouns.computeIfAbsent(thing, unused -> new ArrayList<>()).addAll(Arrays.asList(more));
  }

  private static Map<String, String> withSides(Map<String, String> names) {
    Map<String, String> all = new LinkedHashMap<>(names);
    SIDES.forEach((name, side) -> all.putIfAbsent(name, "{at:" + side + "}"));
    return all;
  }

  private static Map<String, String> without(Map<String, String> names, Set<String> taken) {
    Map<String, String> rest = new LinkedHashMap<>(names);
    rest.keySet().removeAll(taken);
    return rest;
  }

  private static void addAll(Map<String, String> names, Map<String, String> more) {
    more.forEach(names::putIfAbsent);
  }

  /** The rules that the plan adds, as one JSGF text. */
  String toJsgf() {
    StringBuilder text = new StringBuilder("#JSGF V1.0;\ngrammar tallyback.plan;\n\n");
    slots.forEach(
        (rule, names) -> {
          text.append('<').append(rule).append("> = ");
          if (names.isEmpty()) {
            text.append("<VOID>");
          } else {
            List<String> branches = new ArrayList<>();
            names.forEach(
                (name, tags) -> branches.add(tags.isEmpty() ? name : "(" + name + ") " + tags));
            text.append(String.join("\n    | ", branches));
          }
          text.append(";\n\n");
        });
    return text.toString();
  }
}
