#pragma once
// Reads a PDF back with tools outside the project (poppler-utils, qpdf), so that the layouts are judged by what others see.
#include <unistd.h>

#include <array>
#include <catch2/catch.hpp>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

namespace molewright::reading {

struct Word {
  double x1 = 0, y1 = 0, x2 = 0, y2 = 0;  ///< points from the top left
  std::string text;
};
struct Page {
  double width = 0, height = 0;
  std::vector<Word> words;
};

/// A PDF on disk for as long as a test looks at it.
class PdfFile {
 public:
  explicit PdfFile(std::string const& bytes) {
    static int count = 0;
    path_ = std::filesystem::temp_directory_path() /
            ("molewright-test-" + std::to_string(getpid()) + "-" + std::to_string(++count) + ".pdf");
    std::ofstream(path_, std::ios::binary) << bytes;
  }
  ~PdfFile() { std::filesystem::remove(path_); }
  PdfFile(PdfFile const&) = delete;
  PdfFile& operator=(PdfFile const&) = delete;
  std::string quoted() const { return "'" + path_.string() + "'"; }

 private:
  std::filesystem::path path_;
};

/// Standard output of a command, whose exit status must be 0.
inline std::string output_of(std::string const& command) {
  CAPTURE(command);
  FILE* const pipe = popen((command + " 2>/dev/null").c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::string text;
  std::array<char, 65536> buffer{};
  for (std::size_t n = 0; (n = std::fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) text.append(buffer.data(), n);
  REQUIRE(pclose(pipe) == 0);
  return text;
}

inline double attribute(std::string const& tag, std::string const& name) {
  std::size_t const at = tag.find(" " + name + "=\"");
  REQUIRE(at != std::string::npos);
  return std::stod(tag.substr(at + name.size() + 3));
}

inline std::string unescaped(std::string text) {
  for (auto const& [from, to] :
       {std::pair<char const*, char const*>{"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&apos;", "'"}, {"&amp;", "&"}}) {
    for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += 1)
      text.replace(at, std::string(from).size(), to);
  }
  return text;
}

inline std::vector<Page> pages_of(PdfFile const& pdf) {
  std::string const xml = output_of("pdftotext -bbox " + pdf.quoted() + " -");
  std::vector<Page> pages;
  for (std::size_t at = 0; (at = xml.find('<', at)) != std::string::npos;) {
    std::size_t const end = xml.find('>', at);
    std::string const tag = xml.substr(at, end - at);
    at = end;
    if (tag.starts_with("<page ")) pages.push_back({attribute(tag, "width"), attribute(tag, "height"), {}});
    if (tag.starts_with("<word ")) {
      std::size_t const close = xml.find("</word>", end);
      pages.back().words.push_back({attribute(tag, "xMin"), attribute(tag, "yMin"), attribute(tag, "xMax"),
                                    attribute(tag, "yMax"), unescaped(xml.substr(end + 1, close - end - 1))});
    }
  }
  return pages;
}

inline bool has_word(std::vector<Page> const& pages, std::string const& text) {
  for (Page const& page : pages) {
    for (Word const& word : page.words) {
      if (word.text == text) return true;
    }
  }
  return false;
}

/// Darkest value (0 black to 255 white) in the outer `margin` points of every page as poppler draws it: rules and boxes count,
/// too.
inline int darkest_in_margin(PdfFile const& pdf, double margin) {
  constexpr double dots = 36;  // to the inch
  std::string const images = output_of("pdftoppm -r 36 -gray " + pdf.quoted());
  int darkest = 255;
  std::size_t at = 0;
  int seen = 0;
  while (at < images.size()) {
    int w = 0, h = 0, used = 0;
    REQUIRE(std::sscanf(images.c_str() + at, "P5 %d %d 255%n", &w, &h, &used) == 2);
    at += static_cast<std::size_t>(used) + 1;
    int const m = static_cast<int>(margin * dots / 72) - 1;
    for (int y = 0; y < h; ++y) {
      for (int x = 0; x < w; ++x) {
        bool const inside = x >= m && x < w - m && y >= m && y < h - m;
        if (!inside)
          darkest =
              std::min(darkest, static_cast<int>(static_cast<unsigned char>(images[at + static_cast<std::size_t>(y * w + x)])));
      }
    }
    at += static_cast<std::size_t>(w) * static_cast<std::size_t>(h);
    ++seen;
  }
  REQUIRE(seen > 0);
  return darkest;
}

}  // namespace molewright::reading
