package limbqueue.reading;

import tools.jackson.databind.JsonNode;

/**
 * One field that a letter states, and the words it rests on.
 *
 * @param field the field's path in the public format, such as {@code legs.right.abi} or {@code medicines[0].name}
 * @param value its value as the public format writes it
 * @param start where the words begin, in {@code char}s of the letter's text from 0
 * @param end where the words end, exclusive; always greater than {@code start}
 */
public record FoundField(String field, JsonNode value, int start, int end) {}
