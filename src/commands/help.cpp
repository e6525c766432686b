// Help, man page and shell completion, all from the table of verbs and options.
#include "commands/options.hpp"

namespace towloom {
namespace {

const char* const purpose = "wiring sheets for a car that is flat-towed behind a motorhome";
const char* const statuses = "Ends with: 0 clean, 1 the job has faults (check, draw --strict), 2 the job or the command\n"
                             "cannot be used, 3 internal fault, 4 cannot write.\n";
const char* const caution = "Check local law; licensed practice decides.\n";

std::string written(const Option& o) { return o.name + (o.value == nullptr ? std::string() : std::string(" ") + o.value); }

// A hyphen that may be copied, and no line that begins a request.
std::string troff(const std::string& text) {
  std::string out;
  for (const char c : text) out += c == '-' ? std::string("\\-") : c == '\\' ? std::string("\\e") : std::string(1, c);
  return !out.empty() && (out[0] == '.' || out[0] == '\'') ? "\\&" + out : out;
}

}  // namespace

std::string help_text(const std::vector<Verb>& verbs, const std::vector<Option>& options) {
  std::string out = std::string("towloom: ") + purpose + "\n\n";
  for (const Verb& v : verbs) out += std::string("  towloom ") + v.usage + "\n      " + v.says + "\n";
  out += "\n";
  for (const Option& o : options) out += "  " + written(o) + "\n      " + o.says + "\n";
  out += "  --man\n      print the man page\n  --completion\n      print the completion for bash\n";
  return out + "\n" + statuses + caution;
}

std::string man_page(const std::vector<Verb>& verbs, const std::vector<Option>& options, const std::string& version) {
  std::string out = ".TH TOWLOOM 1 \"\" \"towloom " + version + "\"\n.SH NAME\ntowloom \\- " + purpose + "\n.SH SYNOPSIS\n";
  for (const Verb& v : verbs) out += ".B towloom\n" + troff(v.usage) + "\n.br\n";
  out += ".SH COMMANDS\n";
  for (const Verb& v : verbs) out += std::string(".TP\n.B ") + troff(v.name) + "\n" + troff(v.says) + "\n";
  out += ".SH OPTIONS\n";
  for (const Option& o : options) out += ".TP\n.B " + troff(written(o)) + "\n" + troff(o.says) + "\n";
  return out + ".SH EXIT STATUS\n" + statuses + ".SH NOTES\n" + caution;
}

std::string completion(const std::vector<Verb>& verbs, const std::vector<Option>& options) {
  std::string names, flags, files;
  for (const Verb& v : verbs) names += (names.empty() ? "" : " ") + std::string(v.name);
  for (const Option& o : options) {
    flags += (flags.empty() ? "" : " ") + std::string(o.name);
    const std::string value = o.value == nullptr ? "" : o.value;
    if (value == "FILE" || value == "FOLDER") files += (files.empty() ? "" : "|") + std::string(o.name);
  }
  return "_towloom() {\n"
         "  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}\n"
         "  case $before in\n"
         "    " + files + ") COMPREPLY=($(compgen -f -- \"$word\")); return ;;\n"
         "  esac\n"
         "  if [ \"$COMP_CWORD\" -eq 1 ]; then\n"
         "    COMPREPLY=($(compgen -W \"" + names + " --help --version --man --completion\" -- \"$word\"))\n"
         "  elif [ \"${word:0:1}\" = - ]; then\n"
         "    COMPREPLY=($(compgen -W \"" + flags + "\" -- \"$word\"))\n"
         "  else\n"
         "    COMPREPLY=($(compgen -f -X '!*.yaml' -- \"$word\") $(compgen -d -- \"$word\"))\n"
         "  fi\n"
         "}\n"
         "complete -o filenames -F _towloom towloom\n";
}

}  // namespace towloom
