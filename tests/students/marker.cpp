// Marks scripts for the simulated students: `students_marker SET.jsonl < scripts`. A script is a line: a question's code and,
// after a unit separator (0x1f), the slip that the marker must not know, if any; then for each part a tab, the answer and,
// after a unit separator, its lines of working if there are any. For each line it prints a JSON array with an object a part: the
// verdict `v`, the candidates `c` (slips with their nodes, the probability and the value that they lead to), and the notes `n`.
#include <cmath>
#include <fstream>
#include <iostream>
#include <map>
#include <memory>
#include <nlohmann/json.hpp>
#include <sstream>

#include "app/set_store.h"
#include "marker/judge.h"

using namespace molewright;

namespace {

Json part_json(Judgement const& judgement) {
  Json candidates = Json::array();
  for (auto const& candidate : judgement.candidates) {
    Json slips = Json::array();
    for (auto const& slip : candidate.slips) slips.push_back({slip.id, slip.node});
    candidates.push_back({slips, candidate.probability, candidate.value});
  }
  return {{"v", name(judgement.value)}, {"c", candidates}, {"n", judgement.notes}};
}
}  // namespace

int main(int argc, char** argv) {  // NOLINT(bugprone-exception-escape): what is thrown ends the run, and run sees it
  if (argc != 2) {
    std::cerr << "students_marker SET.jsonl < scripts\n";
    return 2;
  }
  std::ifstream file(argv[1]);
  std::stringstream text;
  text << file.rdbuf();
  auto const stored = read_set(text.str());
  if (!stored.faults.empty()) {
    std::cerr << sentence(stored.faults.front().fault) << "\n";
    return 1;
  }
  std::map<std::string, Question const*, std::less<>> questions;
  for (auto const& paper : stored.set.papers)
    for (auto const& question : paper.questions) questions[question.code] = &question;
  std::string line, whose;  ///< code and slip that the judge is for
  std::unique_ptr<Judge> judge;
  while (std::getline(std::cin, line)) {
    std::istringstream cells(line);
    std::string head, cell;
    std::getline(cells, head, '\t');
    auto const behind_code = head.find('\x1f');
    auto const code = head.substr(0, behind_code);
    auto const at = questions.find(code);
    if (at == questions.end()) {
      std::cerr << "no question " << code << "\n";
      return 1;
    }
    if (head != whose || !judge) {
      auto const* const without = behind_code == std::string::npos ? nullptr : find_slip(head.substr(behind_code + 1));
      judge = std::make_unique<Judge>(*at->second, stored.set.course, without);
      whose = head;
    }
    std::vector<Written> written;
    while (std::getline(cells, cell, '\t')) {
      auto const parted = cell.find('\x1f');
      written.push_back(read_written(cell.substr(0, parted), stored.set.course.conventions.mark));
      if (parted != std::string::npos) written.back().working = cell.substr(parted + 1);
    }
    Json parts = Json::array();
    for (auto const& judgement : judge->judge(written)) parts.push_back(part_json(judgement));
    std::cout << parts.dump(-1, ' ', false, Json::error_handler_t::replace) << '\n';
  }
  return 0;
}
