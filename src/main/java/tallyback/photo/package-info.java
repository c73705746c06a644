/**
 * Photos as files: which files of a folder are photos, when the camera says that they were taken,
 * and reduced copies of them. Start at {@link tallyback.photo.PhotoFolder}; {@link
 * tallyback.photo.ReducedCopy} makes a copy. Originals are only ever read. Nothing is unpacked
 * before its size was read and found fit, and only what is needed of the data beside the picture is
 * read: time and which way is up, never where it was taken.
 */
@NullMarked
package tallyback.photo;

import org.jspecify.annotations.NullMarked;
