package tallyback.speech.adapt;

/** A voice was learned with another acoustic model than the one that is to listen for it. */
public final class ProfileOfAnotherModel extends RuntimeException {

  private static final long serialVersionUID = 1;

  /** Of these two models, by their fingerprints. */
  public ProfileOfAnotherModel(String learnedWith, String listensWith) {
    super("learned with the acoustic model " + learnedWith + ", and this is " + listensWith);
  }
}
