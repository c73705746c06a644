/**
 * The use cases, shared by the commands and later the page: loading a plan, noting typed lines and
 * recorded sound, checking a job, writing its record, running the demo. Nothing here prints; what
 * there is to tell comes back as values.
 */
@org.jspecify.annotations.NullMarked
package tallyback.app;
