package tallyback.plan;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tallyback.plan.Names.Kind;
import tallyback.plan.Section.Mention;

/** Reads ids, spoken names and their pronunciations. One file each. */
final class Naming {

  /** Id and spoken names of one thing. */
  record Called(String id, List<String> say) {}

  static final Pattern ID = Pattern.compile("[a-z][a-z0-9]*(-[a-z0-9]+)*");

  private static final int LONGEST_NAME_WORDS = 5;
  private static final Pattern SPOKEN_WORD = Pattern.compile("[a-z]+('[a-z]+)*'?");
  private static final Pattern HAS_DIGIT = Pattern.compile(".*\\d.*");

  /**
   * The sounds of the CMU pronouncing dictionary, as used by the stock acoustic model: without
   * stress marks.
   */
  private static final Set<String> PHONES =
      Set.of(
          "AA", "AE", "AH", "AO", "AW", "AY", "B", "CH", "D", "DH", "EH", "ER", "EY", "F", "G",
          "HH", "IH", "IY", "JH", "K", "L", "M", "N", "NG", "OW", "OY", "P", "R", "S", "SH", "T",
          "TH", "UH", "UW", "V", "W", "Y", "Z", "ZH");

  private final Names names;
  private final Places places;
  private final Faults faults;

  Naming(Names names, Places places, Faults faults) {
    this.names = names;
    this.places = places;
    this.faults = faults;
  }

  /** Reads id and spoken names; an id that is not given is made of the first spoken name. */
  Called called(Section section, Kind kind) {
    List<Mention> say = section.texts("say").stream().map(Naming::singleSpaced).toList();
    String given = section.text("id");
    if (!section.has("say") || section.isEmptyList("say")) {
      faults.nothingToSay(section.spot("say"));
    }
    say.forEach(this::checkSayable);
    String id = given == null ? idFrom(say) : given;
    if (given != null && !ID.matcher(given).matches()) {
      faults.badId(section.spot("id"), given);
    } else if (!id.isEmpty()) {
      names.declare(kind, id, section.spot(given == null ? "say" : "id"));
    }
    names.say(kind, id, say);
    places.put(id, section);
    return new Called(id, say.stream().map(Mention::text).toList());
  }

  private static Mention singleSpaced(Mention name) {
    return new Mention(name.text().replaceAll(" +", " "), name.spot());
  }

  private static String idFrom(List<Mention> say) {
    return say.isEmpty() ? "" : say.get(0).text().replace("'", "").replaceAll("[^a-z0-9]+", "-");
  }

  private void checkSayable(Mention name) {
    String said = name.text();
    String[] words = said.split(" ");
    if (HAS_DIGIT.matcher(said).matches()) {
      faults.notSayable(name.spot(), said, "spell numbers as words");
    } else if (words.length > LONGEST_NAME_WORDS
        || !List.of(words).stream().allMatch(word -> SPOKEN_WORD.matcher(word).matches())) {
      faults.notSayable(
          name.spot(), said, "use only lower-case letters and apostrophes, spelled as spoken");
    }
  }

  Map<String, List<String>> pronunciations(@Nullable Section section) {
    Map<String, List<String>> all = new LinkedHashMap<>();
    if (section == null) {
      return all;
    }
    for (String word : section.fields()) {
      List<Mention> ways = section.texts(word);
      if (!SPOKEN_WORD.matcher(word).matches()) {
        faults.notSayable(section.spot(word), word, "give one word in lower-case letters");
      }
      ways.forEach(this::checkPhones);
      all.put(word, ways.stream().map(Mention::text).toList());
    }
    return all;
  }

  private void checkPhones(Mention way) {
    for (String phone : way.text().split(" +", -1)) {
      if (!PHONES.contains(phone)) {
        faults.notPhone(way.spot(), phone);
      }
    }
  }
}
