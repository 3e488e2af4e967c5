/**
 * What the parser of the command line complains about, in our words. `command` is the command that was named, null
 * where none was known.
 */
export function plainMessage(message: string | undefined, command: string | null): string {
  const text = (message ?? 'This command line is not understood').trim();
  const help = command === null ? 'heatledger --help' : `heatledger ${command} --help`;
  const unknown = /^Unknown arguments?: ([^,]*)/.exec(text)?.[1];
  if (unknown !== undefined) {
    return command === null
      ? `There is no command or option "${unknown}". See ${help}.`
      : `The command ${command} knows nothing of "${unknown}". See ${help}.`;
  }
  const choice = /Argument: ([^,]*), Given: (.*), Choices: (.*)$/s.exec(text);
  if (choice) {
    const choices = (choice[3] as string).replaceAll('"', '');
    return `${choice[2]} can't be used for ${choice[1]}; one of these is expected: ${choices}.`;
  }
  const lacking = /^Not enough arguments following: (.*)$/.exec(text)?.[1];
  if (lacking !== undefined) return `The option --${lacking} needs a value after it. See ${help}.`;
  const exclusive = /^Arguments (\S+) and (\S+) are mutually exclusive$/.exec(text);
  if (exclusive) return `--${exclusive[1]} and --${exclusive[2]} can't be used together.`;
  return /[.?!]$/.test(text) ? text : `${text}. See ${help}.`;
}
