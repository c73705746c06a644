package tallyback.speech.adapt;

/** The file of a voice is not as it was written. */
public final class VoiceFileDamaged extends Exception {

  private static final long serialVersionUID = 1;

  /** With what is wrong with it. */
  public VoiceFileDamaged(String what) {
    super(what);
  }
}
