// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

/// Where things stand that tests read and run: in one file, so that the rest need no path of the machine.
std::string test_data(const std::string &name);  ///< a file or folder of tests/data
std::string in_project(const std::string &name); ///< a file or folder of the project
std::string program_file();                      ///< the program itself
