/**
 * The log: what was noted, in order, never overwritten.
 *
 * <p>Two ports: {@link tallyback.log.LogReader} for whoever only looks, and {@link
 * tallyback.log.JobLog} for the one writer. A {@link tallyback.log.Draft} (with its {@link
 * tallyback.log.SoundClip}, when it was spoken) goes in, and comes back as an {@link
 * tallyback.model.Entry} with its sequence number once it is on disk. {@link
 * tallyback.log.EntryJson} is the published shape of an entry outside the program; its JSON Schema
 * lies in the jar under {@code tallyback/schema/}. What can go wrong is either {@link
 * tallyback.log.LogRefused} (wrong use or a file that isn't ours) or {@link
 * tallyback.log.LogFailed} (the machine).
 *
 * <p>Adapters live below this package, each behind one public factory.
 */
@org.jspecify.annotations.NullMarked
package tallyback.log;
