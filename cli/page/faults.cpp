// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/faults.hpp"

#include "cli/words/printable.hpp"

#include <utility>

namespace gatherwright::page {

std::vector<cli::InputFault> placed_faults(const cli::ReadJob &read, const Refusals &refusals) {
  cli::FaultList faults;
  for (cli::InputFault &fault : cli::placed(read, refusals))
    faults.add(std::move(fault));
  return std::move(faults).by_line();
}

void write_faults(report::JsonText &json, const std::vector<cli::InputFault> &faults) {
  json.key("faults");
  json.open_array();
  for (const cli::InputFault &fault : faults) {
    json.open_object(report::JsonText::Lay::one_line);
    json.integer_field("line", fault.line);
    json.text_field("pointer", fault.pointer);
    json.text_field("what", words::printable(fault.fault.what));
    json.text_field("instead", words::printable(fault.fault.instead));
    json.close();
  }
  json.close();
}

std::string faults_json(const std::vector<cli::InputFault> &faults) {
  report::JsonText json;
  json.open_object();
  write_faults(json, faults);
  json.close();
  return json.take();
}

Reply faults_told(const std::vector<cli::InputFault> &faults) {
  return {200, "application/json", faults_json(faults)};
}

} // namespace gatherwright::page
