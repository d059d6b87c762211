// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

/// Jobs of any size that nobody sews, each hard for another part of the program, as text.
namespace gatherwright::hostile {

/// What stands in a list or in braces: one item a number from 0 on.
inline std::string listed(int count, const std::function<std::string(int)> &item) {
  std::string list;
  for (int i = 0; i < count; ++i)
    list += (i > 0 ? "," : "") + item(i);
  return list;
}

inline std::string n(std::string_view name, int number) {
  return std::string(name) + std::to_string(number);
}

inline std::string job(const std::string &lengths, const std::string &rules, const std::string &joins,
                       const std::string &more = "") {
  return "{" + more + "\"lengths\":{" + lengths + "},\"rules\":[" + rules + "],\"joins\":[" + joins + "]}";
}

inline std::string free_length(const std::string &name, const std::string &range) {
  return "\"" + name + "\":{" + range + "}";
}

inline std::string join(int number, const std::string &long_edge, const std::string &band,
                        const std::string &more = "") {
  return "{\"name\":\"" + n("j", number) + "\",\"long\":\"" + long_edge + "\",\"band\":\"" + band + "\"" + more + "}";
}

/// Joins too full by far, each with a free length of its own.
inline std::string bad_joins(int joins) {
  return job(listed(joins, [](int i) { return free_length(n("a", i), R"("from":40,"to":50)"); }), "",
             listed(joins, [](int i) { return join(i, n("a", i), "10 cm"); }));
}

/// Joins too full by far that share some free lengths.
inline std::string bad_joins_sharing(int joins, int lengths) {
  return job(listed(lengths, [](int i) { return free_length(n("a", i), R"("from":40,"to":50)"); }), "",
             listed(joins, [=](int i) { return join(i, n("a", i % lengths), std::to_string(10 + i % 7) + " cm"); }));
}

/// One join of segments too full by far.
inline std::string full_segments(int segments) {
  const std::string list = listed(segments, [](int) { return R"({"long":5,"band":1})"; });
  return job(
      "", "",
      join(0, std::to_string(5 * segments) + " cm", std::to_string(segments) + " cm", ",\"segments\":[" + list + "]"));
}

/// Joins too full by far, with nearly as many marks as a join may have.
inline std::string bad_joins_of_many_marks(int joins) {
  return job("", "", listed(joins, [](int i) { return join(i, "500 cm", "100 cm", R"(,"marks":{"parts":9990})"); }));
}

/// Lengths in a ring of rules: each of them is to be related so to the next, with something added.
inline std::string ring_of_rules(int rules, std::string_view relation, std::string_view added = "") {
  return job(listed(rules, [](int i) { return free_length(n("a", i), R"("from":10,"to":50)"); }),
             listed(rules,
                    [&](int i) {
                      return "\"" + n("a", i) + " " + std::string(relation) + " " + n("a", (i + 1) % rules) +
                             std::string(added) + "\"";
                    }),
             join(0, "a0", "10 cm"));
}

/// Joins within limits, each with two free lengths of its own.
inline std::string joins_within_limits(int joins) {
  return job(listed(joins,
                    [](int i) {
                      return free_length(n("a", i), R"("from":15,"to":25)") + "," +
                             free_length(n("b", i), R"("from":8,"to":12)");
                    }),
             "", listed(joins, [](int i) { return join(i, n("a", i), n("b", i)); }));
}

/// Joins within limits that hang together: each band is half of the next one's long edge.
inline std::string joins_in_a_ring(int joins) {
  return job(listed(joins, [](int i) { return free_length(n("a", i), R"("from":15,"to":25)"); }), "",
             listed(joins, [=](int i) { return join(i, n("a", i), n("a", (i + 1) % joins) + " / 2"); }));
}

/// Joins within limits, which careless cutting takes too far.
inline std::string joins_at_risk(int joins) {
  return job(listed(joins,
                    [](int i) {
                      return free_length(n("a", i), R"("from":15,"to":27,"aim":"most")") + ",\"" + n("b", i) + "\":10";
                    }),
             "", listed(joins, [](int i) { return join(i, n("a", i), n("b", i)); }),
             R"("tolerance":{"cut":"5 mm","mark":"5 mm"},)");
}

/// Joins whose rooms are found by planning.
inline std::string fading_joins(int joins) {
  const std::string segments = R"(,"segments":[{"long":"a#","spread":{"fade":[1,1]}},{"long":10}])";
  return job(listed(joins, [](int i) { return free_length(n("a", i), R"("from":15,"to":25)"); }), "",
             listed(joins, [&](int i) {
               std::string own = segments;
               own.replace(own.find('#'), 1, std::to_string(i));
               return join(i, n("a", i) + " + 10 cm", "16 cm", own);
             }));
}

/// A rule of many terms, of free lengths or of fixed ones.
inline std::string rule_of_terms(int terms, int lengths, bool free) {
  std::string sum = "a0";
  for (int i = 1; i < terms; ++i)
    sum += "+" + n("a", i % lengths);
  return job(
      listed(lengths,
             [=](int i) { return free ? free_length(n("a", i), R"("from":10,"to":50)") : "\"" + n("a", i) + "\":20"; }),
      "\"" + sum + " <= " + std::to_string(25LL * terms) + " cm\"", join(0, "a0", "10 cm"));
}

/// Fixed lengths that nothing is made of but the first, which is too much or is not.
inline std::string fixed_lengths(int lengths, bool too_much) {
  return job(listed(lengths, [=](int i) { return "\"" + n("a", i) + "\":" + (i == 0 && too_much ? "50" : "20"); }), "",
             join(0, "a0", "10 cm"));
}

/// Lengths each of which is made of the one before.
inline std::string chain_of_lengths(int lengths) {
  return job(
      listed(lengths, [](int i) { return "\"" + n("a", i) + "\":" + (i == 0 ? "20" : "\"" + n("a", i - 1) + "\""); }),
      "", join(0, "a0", "10 cm"));
}

/// Free lengths, each the sum of what one more names than the one before.
inline std::string sums_of_lengths(int lengths) {
  return job(listed(lengths,
                    [](int i) {
                      return "\"" + n("f", i) + "\":{},\"" + n("s", i) + "\":\"" +
                             (i == 0 ? "f0" : n("s", i - 1) + "+" + n("f", i)) + "\"";
                    }),
             "", join(0, "f0", "10 cm"));
}

/// Free lengths, one of them gathered.
inline std::string free_lengths(int lengths) {
  return job(listed(lengths, [](int i) { return free_length(n("a", i), R"("from":15,"to":25)"); }), "",
             join(0, "a0", "10 cm"));
}

/// Lengths each of which is to be longer than the next, down to one that is to be as long as the first.
inline std::string conflicting_lengths(int lengths) {
  return job(listed(lengths, [](int i) { return free_length(n("a", i), R"("from":10,"to":50)"); }),
             listed(lengths - 1, [](int i) { return "\"" + n("a", i) + " >= " + n("a", i + 1) + " + 1 cm\""; }),
             join(0, "a0", "10 cm"));
}

/// Pieces of as many sizes, of one cloth.
inline std::string many_pieces(int pieces) {
  return R"({"fabric":{"width":"150 cm"},"joins":[)" + join(0, "52 cm", "22 cm") + R"(],"pieces":[)" +
         listed(pieces,
                [](int i) {
                  return "{\"name\":\"" + n("p", i) + "\",\"across\":" + std::to_string(5 + i % 97) +
                         ",\"along\":" + std::to_string(5 + i % 89) + "}";
                }) +
         "]}";
}

/// One piece to a side of which the same join is sewn again and again.
inline std::string parts_of_a_side(int parts) {
  return R"({"fabric":{"width":"150 cm"},"joins":[)" + join(0, "52 cm", "22 cm") +
         R"(],"pieces":[{"name":"p","across":50,"along":50,"sides":{"left":[)" +
         listed(parts, [](int i) { return R"({"join":"j0","at":)" + std::to_string(i) + "}"; }) + "]}}]}";
}

/// Joins and rules over free lengths that all hang together, within limits: large rather than hostile.
inline std::string tied_joins(int joins, int lengths, int rules) {
  std::uint32_t state = 1;
  const auto below = [&](int most) {
    state = state * 1664525U + 1013904223U;
    return static_cast<int>((state >> 8U) % static_cast<unsigned>(most));
  };
  // In millimetres: bands of 80 to 140, long edges twice that.
  std::vector<int> is(static_cast<std::size_t>(lengths));
  for (int i = 0; i < lengths; ++i)
    is[i] = (i % 2 == 1 ? 2 : 1) * (80 + below(60));
  const auto mm = [](int length) { return std::to_string(length) + " mm"; };
  const std::string written = listed(lengths, [&](int i) {
    const std::string aim = below(2) == 1 ? ",\"aim\":\"" + mm(is[i] + below(20) - 10) + "\"" : "";
    return free_length(n("a", i),
                       "\"from\":\"" + mm(is[i] * 7 / 10) + "\",\"to\":\"" + mm(is[i] * 14 / 10) + "\"" + aim);
  });
  const std::string segments = R"(,"segments":[{},{"share":2},{"share":3}])";
  const std::string sewn = listed(joins, [&](int i) {
    const int band = 2 * below(lengths / 2);
    int long_edge = 2 * below(lengths / 2) + 1;
    for (int tries = 0; tries < 50 && (is[long_edge] * 10 < is[band] * 14 || is[long_edge] * 10 > is[band] * 25);
         ++tries)
      long_edge = 2 * below(lengths / 2) + 1;
    return join(i, n("a", long_edge), n("a", band), segments);
  });
  const std::string held = listed(rules, [&](int) {
    const int a = below(lengths);
    const int b = (a + 1 + below(lengths - 2)) % lengths;
    const int c = (b + 1 + below(lengths - 2)) % lengths;
    const int most = is[a] + is[b] - is[c] + below(40);
    return "\"" + n("a", a) + " + " + n("a", b) + " - " + n("a", c) + " <= " + mm(most > 1 ? most : 1) + "\"";
  });
  return job(written, held, sewn);
}

} // namespace gatherwright::hostile
