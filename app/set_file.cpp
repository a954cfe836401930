#include "app/set_file.h"

#include <toml++/toml.h>

#include <algorithm>

#include "app/toml_text.h"

namespace molewright {
namespace {

class SetReader {
 public:
  SetReader(std::string_view text, bool needs_questions) : text_(text), needs_questions_(needs_questions) {}

  SetFile read() {
    toml::table table;
    try {
      table = toml::parse(text_);
    } catch (toml::parse_error const& error) {
      out_.faults.push_back(toml_syntax(error, text_));
      return std::move(out_);
    }
    for (auto const& [name, node] : table) top_key(std::string(name.str()), node);
    if (needs_questions_ && out_.plan.items.empty() && !out_.resit_of && out_.faults.empty())
      fault({"no-questions", "this set has no questions", "a [[question]] with a kind", 0}, table.source());
    // The keys come by name; a person reads from the top.
    std::stable_sort(out_.faults.begin(), out_.faults.end(), [](auto const& a, auto const& b) { return a.line < b.line; });
    return std::move(out_);
  }

 private:
  void top_key(std::string const& name, toml::node const& node) {
    static std::vector<std::string> const known{"title", "versions", "class", "course", "seed", "avoid", "resit_of", "question"};
    if (name == "title") {
      if (auto text = string_of(name, node)) out_.plan.title = *text;
    } else if (name == "class") {
      out_.class_file = string_of(name, node);
    } else if (name == "course") {
      out_.course_file = string_of(name, node);
    } else if (name == "seed") {
      if (auto const* number = node.as_integer())
        out_.seed = std::to_string(number->get());
      else
        out_.seed = string_of(name, node);
    } else if (name == "resit_of") {
      out_.resit_of = string_of(name, node);
    } else if (name == "avoid") {
      avoid(node);
    } else if (name == "versions") {
      versions(node);
    } else if (name == "question") {
      questions(node);
    } else {
      unknown_key(name, known, node);
    }
  }

  void versions(toml::node const& node) {
    if (auto const* number = node.as_integer()) {  // so many numbered papers, for a class without a list
      if (number->get() < 1 || number->get() > 100000)
        fault({"no-versions", "there cannot be " + std::to_string(number->get()) + " versions", "1 to 100000", 0}, node.source());
      else
        out_.plan.copies = static_cast<int>(number->get());
      return;
    }
    auto const text = string_of("versions", node);
    if (!text) return;
    if (*text == "each")
      out_.plan.versions = SetPlan::Versions::each;
    else if (*text == "one")
      out_.plan.versions = SetPlan::Versions::one;
    else if (*text == "A/B")
      out_.plan.versions = SetPlan::Versions::ab;
    else
      fault({"unknown-value", "versions cannot be \"" + *text + '"', "\"each\", \"one\", \"A/B\" or a number of papers", 0},
            node.source());
  }

  void avoid(toml::node const& node) {
    if (auto const* list = node.as_array()) {
      for (auto const& entry : *list)
        if (auto text = string_of("avoid", entry)) out_.avoid.push_back(*text);
    } else if (auto text = string_of("avoid", node)) {
      out_.avoid.push_back(*text);
    }
  }

  void questions(toml::node const& node) {
    auto const* list = node.as_array();
    if (!list || !list->is_array_of_tables()) {
      fault({"wrong-type", "question has the wrong type", "[[question]] with lines below it", 0}, node.source());
      return;
    }
    for (auto const& entry : *list) question(*entry.as_table());
  }

  void question(toml::table const& table) {
    static std::vector<std::string> const known{"kind", "template", "problem", "level", "form", "count", "marks", "vary"};
    SetItem item;
    int named = 0;
    toml::node const* vary = nullptr;
    Vary what = Vary::numbers;
    for (auto const& [key, node] : table) {
      std::string const name(key.str());
      if (name == "kind" || name == "template" || name == "problem" || name == "level") {
        auto const text = string_of(name, node);
        if (!text) continue;
        if (name == "level") {
          item.level = *text;
          continue;
        }
        ++named;
        if (name == "kind") item.kind = *text;
        if (name == "template") item.template_name = *text;
        if (name == "problem") out_.problems.push_back({out_.plan.items.size(), *text, toml_fault({}, node.source(), text_), {}});
      } else if (name == "form") {
        auto const text = string_of(name, node);
        if (!text) continue;
        if (auto const form = form_named(*text))
          item.form = *form;
        else
          fault({"unknown-value", "form cannot be \"" + *text + '"', "\"open\", \"choice\", \"mistake\" or \"faded\"", 0},
                node.source());
      } else if (name == "count" || name == "marks") {
        auto const* number = node.as_integer();
        if (!number || number->get() < 1 || number->get() > 100)
          fault({"wrong-type", name + " has the wrong value", "a whole number from 1 to 100", 0}, node.source());
        else if (name == "count")
          item.count = static_cast<int>(number->get());
        else
          item.marks = static_cast<int>(number->get());
      } else if (name == "vary") {
        auto const* flag = node.as_boolean();
        auto const* text = node.as_string();
        if (text != nullptr && text->get() == "chemistry")
          what = Vary::chemistry;
        else if (!flag)
          fault({"wrong-type", "vary has the wrong value", "true, false or \"chemistry\"", 0}, node.source());
        if (text != nullptr || (flag && flag->get())) vary = &node;
      } else {
        unknown_key(name, known, node);
      }
    }
    if (named != 1)
      fault({"one-of-kind-template-problem",
             named == 0 ? "this question says nothing of what it is" : "this question says more than one thing",
             "one of kind, template and problem", 0},
            table.source());
    if (vary != nullptr) {
      bool const own = !out_.problems.empty() && out_.problems.back().item == out_.plan.items.size();
      if (own)
        out_.problems.back().vary = what;
      else
        fault({"no-variants", "only a problem of your own can be varied", "problem = FILE beside vary", 0}, vary->source());
    }
    out_.places.push_back(toml_fault({}, table.source(), text_));
    out_.plan.items.push_back(std::move(item));
  }

  std::optional<std::string> string_of(std::string const& name, toml::node const& node) {
    if (auto const* text = node.as_string()) return text->get();
    fault({"wrong-type", name + " has the wrong type", "text in quotes", 0}, node.source());
    return std::nullopt;
  }
  void unknown_key(std::string const& name, std::vector<std::string> const& known, toml::node const& node) {
    auto const near = nearest(name, known);
    fault({"unknown-key", "unknown key " + name, quoted_list(near.empty() ? known : near), 0}, node.source());
  }
  void fault(Fault found, toml::source_region const& where) { out_.faults.push_back(toml_fault(std::move(found), where, text_)); }

  std::string_view text_;
  bool needs_questions_;
  SetFile out_;
};
}  // namespace

SetFile read_set_file(std::string_view toml, bool needs_questions) { return SetReader(toml, needs_questions).read(); }

}  // namespace molewright
