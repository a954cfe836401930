#pragma once
// Reads a workbook back without the library that wrote it: the archive and its XML by Python's standard library.
#include <map>
#include <string>

#include "tests/app/program.h"

namespace molewright::reading {

/// "Marks!B3" -> "n 5", "f =SUM(B3:D3) -> 5", "s text"; empty cells are left out. A cell of the text format has "@" behind its
/// kind.
inline std::map<std::string, std::string> cells_of(std::string const& bytes) {
  static char const* const script = R"(
import re, sys, zipfile
import xml.etree.ElementTree as tree
book = zipfile.ZipFile(sys.argv[1])
m = '{http://schemas.openxmlformats.org/spreadsheetml/2006/main}'
texts = []
if 'xl/sharedStrings.xml' in book.namelist():
    texts = [''.join(t.text or '' for t in one.iter(m + 't')) for one in tree.fromstring(book.read('xl/sharedStrings.xml'))]
styles = tree.fromstring(book.read('xl/styles.xml'))
text_format = [one.get('numFmtId') == '49' for one in styles.find(m + 'cellXfs')]
for number, sheet in enumerate(tree.fromstring(book.read('xl/workbook.xml')).find(m + 'sheets'), 1):
    for cell in tree.fromstring(book.read('xl/worksheets/sheet%d.xml' % number)).iter(m + 'c'):
        formula, value = cell.find(m + 'f'), cell.find(m + 'v')
        shown = '' if value is None or value.text is None else value.text
        mark = '@' if text_format[int(cell.get('s', 0))] else ''
        if formula is not None: what = 'f' + mark + ' =' + formula.text + ' -> ' + shown
        elif cell.get('t') == 's': what = 's' + mark + ' ' + texts[int(shown)]
        elif cell.get('t') == 'inlineStr': what = 's' + mark + ' ' + ''.join(t.text or '' for t in cell.iter(m + 't'))
        elif value is not None: what = 'n' + mark + ' ' + shown
        else: what = 'blank' + mark
        print(sheet.get('name') + '!' + cell.get('r') + '\t' + what.replace('\n', ' '))
)";
  Workplace const place;
  place.write("book.xlsx", bytes);
  place.write("read.py", script);
  int const status = std::system(("python3 " + shell_quoted(place.at("read.py")) + " " + shell_quoted(place.at("book.xlsx")) +
                                  " > " + shell_quoted(place.at("cells.txt")))
                                     .c_str());
  REQUIRE(status == 0);
  std::map<std::string, std::string> cells;
  for (auto const& line : lines_of(place.read("cells.txt"))) {
    auto const tab = line.find('\t');
    cells[line.substr(0, tab)] = line.substr(tab + 1);
  }
  return cells;
}

}  // namespace molewright::reading
