# SPDX-License-Identifier: GPL-3.0-or-later
# For find_package(gatherwright): the library is a static one, so that whoever links it links what it uses too.
include(CMakeFindDependencyMacro)
find_dependency(GSL)
include(${CMAKE_CURRENT_LIST_DIR}/gatherwrightTargets.cmake)
