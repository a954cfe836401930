#include "app/practice_record.h"

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <system_error>

#include "app/console.h"
#include "app/files.h"
#include "engine/ascii.h"

namespace molewright {
namespace {

constexpr char const* format_name = "molewright-practice/1";
constexpr char const* format_family = "molewright-practice/";

char const* word_of(PracticePart::State state) {
  switch (state) {
    case PracticePart::State::open:
      return "open";
    case PracticePart::State::right:
      return "right";
    case PracticePart::State::shown:
      return "shown";
  }
  return "";
}

/// Throws std::invalid_argument for a word that is none.
PracticePart::State state_of(std::string const& word) {
  for (auto const state : {PracticePart::State::open, PracticePart::State::right, PracticePart::State::shown})
    if (word == word_of(state)) return state;
  throw std::invalid_argument("state");
}

Json json_of(PracticeEntry const& entry) {
  Json parts = Json::array();
  for (auto const& part : entry.parts) {
    Json tries = Json::array();
    for (auto const& one : part.tries) tries.push_back({{"given", one.given}, {"value", one.value}, {"slips", one.slips}});
    parts.push_back({{"part", part.part}, {"state", word_of(part.state)}, {"steps_shown", part.steps_shown}, {"answers", tries}});
  }
  return {{"code", entry.code}, {"kind", entry.kind}, {"template", entry.template_name}, {"chosen_for", entry.chosen_for},
          {"left", entry.left}, {"parts", parts}};
}

/// Throws what the JSON library throws, and std::invalid_argument.
PracticeEntry entry_of(Json const& json) {
  PracticeEntry entry;
  entry.code = json.at("code").get<std::string>();
  entry.kind = json.at("kind").get<std::string>();
  entry.template_name = json.at("template").get<std::string>();
  entry.chosen_for = json.at("chosen_for").get<std::string>();
  entry.left = json.at("left").get<bool>();
  for (auto const& one : json.at("parts")) {
    PracticePart part;
    part.part = one.at("part").get<std::string>();
    part.state = state_of(one.at("state").get<std::string>());
    part.steps_shown = one.at("steps_shown").get<int>();
    for (auto const& tried : one.at("answers"))
      part.tries.push_back({tried.at("given").get<std::string>(), tried.at("value").get<std::string>(),
                            tried.at("slips").get<std::vector<std::string>>()});
    entry.parts.push_back(std::move(part));
  }
  return entry;
}

PlacedFault at_line(std::size_t line, Fault fault) { return {std::move(fault), line, 1, ""}; }

/// The first line of a record: its format, what is practised and how hard.
std::optional<Fault> read_header(Json const& json, PracticeWish& wish) {
  auto const format = json.is_object() ? json.value("format", std::string()) : std::string();
  if (format.rfind(format_family, 0) != 0)
    return Fault{"not-a-practice-record", "this file is no record of practice",
                 "a record, or the name of a file that is not there yet", 0};
  if (format != format_name) return Fault{"newer-practice-record", "this record is of the form " + format, format_name, 0};
  wish.kinds = json.value("kinds", std::vector<std::string>{});
  wish.level = json.value("level", std::string());
  return std::nullopt;
}
}  // namespace

bool PracticeEntry::open() const {
  return !left && std::any_of(parts.begin(), parts.end(), [](auto const& p) { return p.state == PracticePart::State::open; });
}

Practised practised(PracticeEntry const& entry) {
  Practised out{entry.code, entry.template_name, entry.kind, entry.chosen_for, {}, !entry.left};
  for (auto const& part : entry.parts) {
    if (part.state != PracticePart::State::right || part.steps_shown > 0) out.right_at_once = false;
    for (auto const& one : part.tries) {
      if (one.value == "wrong") out.right_at_once = false;
      for (auto const& slip : one.slips)
        if (std::find(out.slips.begin(), out.slips.end(), slip) == out.slips.end()) out.slips.push_back(slip);
    }
  }
  return out;
}

std::variant<PracticeRecord, PlacedFault> PracticeRecord::open(std::string path) {
  PracticeRecord record;
  record.path_ = std::move(path);
  if (record.path_.empty()) return record;
  std::error_code error;
  bool const there = std::filesystem::exists(record.path_, error);
  if (record.path_ == "-" || (there && !std::filesystem::is_regular_file(record.path_, error)))
    return at_line(1, {"cannot-write", "a record needs a file of its own", "the name of a file", 0});
  if (there) {
    auto const text = read_file(record.path_);
    if (!ok(text)) return at_line(1, fault(text));
    record.found_ = true;
    std::string_view rest = value(text);
    for (std::size_t line = 1; !rest.empty(); ++line) {
      auto const json = Json::parse(take_line(rest), nullptr, false);
      if (line == 1) {
        if (auto found = read_header(json, record.wish)) return at_line(line, *found);
        continue;
      }
      try {
        record.entries.push_back(entry_of(json));
      } catch (std::exception const&) {
        return at_line(line,
                       {"bad-practice-line", "this line is no question of a record", "the record as the program left it", 0});
      }
    }
    if (value(text).empty()) record.found_ = false;
  }
  if (auto const found = record.keep()) return at_line(1, *found);
  return record;
}

std::vector<Practised> PracticeRecord::past() const {
  std::vector<Practised> out;
  for (auto const& entry : entries) out.push_back(practised(entry));
  return out;
}

std::optional<Fault> PracticeRecord::keep() const {
  if (path_.empty()) return std::nullopt;
  auto const place = std::filesystem::path(path_);
  auto const folder = place.parent_path().empty() ? std::string(".") : place.parent_path().string();
  if (!place.has_filename()) return Fault{"cannot-write", "this is a folder", "the name of a file", 0};
  std::string text = json_line({{"format", format_name}, {"kinds", wish.kinds}, {"level", wish.level}});
  for (auto const& entry : entries) text += json_line(json_of(entry));
  OutputFolder out(folder);
  out.add(place.filename().string(), text);
  auto const written = out.write();
  if (!ok(written)) return fault(written);
  return std::nullopt;
}

}  // namespace molewright
