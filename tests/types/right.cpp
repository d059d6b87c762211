// SPDX-License-Identifier: GPL-3.0-or-later
// Compiles: the files beside it are refused for what is wrong in them and for nothing else.
#include "gatherwright/told.hpp"

using namespace gatherwright;

const Join &first_join(const Job &job) {
  return job[JoinId(0)];
}

const NamedLength &length(const Job &job, LengthId id) {
  return job[id];
}

const NamedLength &first_length(const Job &job) {
  return length(job, LengthId(0));
}

namespace {

struct Heard {
  int operator()(const note::WeightAssumed &) const { return 0; }
  int operator()(const note::LeftOut &) const { return 1; }
  int operator()(const note::SharedStep &) const { return 2; }
  int operator()(const note::OverCloth &) const { return 3; }
  int operator()(const note::RowsInside &) const { return 3; }
  int operator()(const note::RangeTurned &) const { return 3; }
  int operator()(const note::MeasureFarOff &) const { return 3; }
  int operator()(const note::LongStitch &) const { return 4; }
  int operator()(const note::FoldsPress &) const { return 5; }
  int operator()(const note::SpreadLevelled &) const { return 6; }
  int operator()(const note::GivePasses &) const { return 7; }
  int operator()(const note::FoundByFolding &) const { return 8; }
  int operator()(const note::OffTape &) const { return 9; }
  int operator()(const note::Unproved &) const { return 10; }
  int operator()(const note::RuleBroken &) const { return 11; }
  int operator()(const note::LongBareNumber &) const { return 12; }
  int operator()(const note::PairNotMirrored &) const { return 13; }
  int operator()(const note::StitchingDiffers &) const { return 14; }
  int operator()(const note::Misread &) const { return 28; }
  int operator()(const note::GarmentOutside &) const { return 20; }
  int operator()(const note::SwatchBelieved &) const { return 21; }
  int operator()(const note::ShallowFolds &) const { return 22; }
  int operator()(const note::MostSensitive &) const { return 15; }
  int operator()(const note::StitchWouldDo &) const { return 16; }
  int operator()(const note::BetterGauged &) const { return 17; }
  int operator()(const note::SupplenessUnknown &) const { return 18; }
  int operator()(const note::TakenFromJob &) const { return 19; }
  int operator()(const note::NoAllowance &) const { return 23; }
  int operator()(const note::AllowancesDiffer &) const { return 24; }
  int operator()(const note::NotLaid &) const { return 25; }
  int operator()(const note::StockUnused &) const { return 26; }
  int operator()(const note::StockUnproved &) const { return 27; }
};

} // namespace

int heard(const Note &note) {
  return std::visit(Heard{}, note);
}
