#include "engine/positive.h"

namespace molewright {
namespace {

/// x = 1 + u with u >= 0, so A u = -A 1. Columns: the u, then one artificial unknown a row; the last column is the right-hand
/// side.
class Simplex {
 public:
  Simplex(std::vector<std::vector<Rational>> const& rows, std::size_t columns)
      : columns_(columns), width_(columns + rows.size() + 1) {
    for (std::size_t i = 0; i < rows.size(); ++i) {
      std::vector<Rational> line(width_);
      Rational right;
      for (std::size_t j = 0; j < columns; ++j) right -= rows[i][j];
      bool const turn = right.sign() < 0;
      for (std::size_t j = 0; j < columns; ++j) line[j] = turn ? -rows[i][j] : rows[i][j];
      line[columns + i] = Rational(1);
      line[width_ - 1] = right.absolute();
      table_.push_back(line);
      basis_.push_back(columns + i);
    }
  }

  std::optional<std::vector<Rational>> solve() {
    minimise(true);
    for (std::size_t i = 0; i < table_.size(); ++i)
      if (basis_[i] >= columns_ && table_[i][width_ - 1].sign() > 0) return std::nullopt;
    // Artificial unknowns that are still there stand at 0: change them for real ones. The rows are independent, so there is one.
    for (std::size_t i = 0; i < table_.size(); ++i)
      for (std::size_t j = 0; basis_[i] >= columns_ && j < columns_; ++j)
        if (table_[i][j].sign() != 0) pivot(i, j);
    minimise(false);
    std::vector<Rational> solution(columns_, Rational(1));
    for (std::size_t i = 0; i < table_.size(); ++i)
      if (basis_[i] < columns_) solution[basis_[i]] += table_[i][width_ - 1];
    return solution;
  }

 private:
  /// What one unit of unknown `j` costs: the artificial ones in the first phase, each of the others in the second.
  Rational cost(std::size_t j, bool artificial) const { return Rational((j >= columns_) == artificial ? 1 : 0); }

  void minimise(bool artificial) {
    for (;;) {
      std::size_t enters = columns_;
      for (std::size_t j = 0; j < columns_ && enters == columns_; ++j) {
        Rational reduced = cost(j, artificial);
        for (std::size_t i = 0; i < table_.size(); ++i)
          if (cost(basis_[i], artificial).sign() != 0) reduced -= table_[i][j];
        if (reduced.sign() < 0) enters = j;
      }
      if (enters == columns_) return;
      std::size_t leaves = table_.size();
      Rational least;
      for (std::size_t i = 0; i < table_.size(); ++i) {
        if (table_[i][enters].sign() <= 0) continue;
        Rational const ratio = table_[i][width_ - 1] / table_[i][enters];
        if (leaves == table_.size() || ratio < least || (ratio == least && basis_[i] < basis_[leaves])) {
          leaves = i;
          least = ratio;
        }
      }
      if (leaves == table_.size()) return;  // unbounded below: cannot be, every cost is at least 0
      pivot(leaves, enters);
    }
  }

  void pivot(std::size_t row, std::size_t column) {
    Rational const divisor = table_[row][column];
    for (Rational& entry : table_[row]) entry /= divisor;
    for (std::size_t i = 0; i < table_.size(); ++i) {
      if (i == row || table_[i][column].sign() == 0) continue;
      Rational const times = table_[i][column];
      for (std::size_t j = 0; j < width_; ++j)
        if (table_[row][j].sign() != 0) table_[i][j] -= times * table_[row][j];
    }
    basis_[row] = column;
  }

  std::size_t columns_, width_;
  std::vector<std::vector<Rational>> table_;
  std::vector<std::size_t> basis_;
};

}  // namespace

std::optional<std::vector<Rational>> positive_solution(std::vector<std::vector<Rational>> const& rows, std::size_t columns) {
  return Simplex(rows, columns).solve();
}

}  // namespace molewright
