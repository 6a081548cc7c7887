package limbqueue.dispatch;

import org.springframework.core.io.Resource;

/**
 * A message as it is handed to the mail server.
 *
 * @param id the Message-ID with its angle brackets; every attempt of the same message has the same
 * @param from the name that stands beside the sender's address
 * @param to one e-mail address
 * @param pdf the letter
 */
record Mail(String id, String from, String to, String subject, String text, String fileName, Resource pdf) {}
