# SPDX-License-Identifier: GPL-3.0-or-later
# What is installed: the program with its place in the menu, the library with its headers for CMake and for pkg-config, the documents; and the .deb
# that CPack makes of it.
include(CMakePackageConfigHelpers)

install(TARGETS gatherwright_program)
# Where the program looks for them, see cli/CMakeLists.txt.
install(TARGETS gatherwright_press gatherwright_page gatherwright_tracing LIBRARY DESTINATION lib/gatherwright)
install(TARGETS gatherwright EXPORT gatherwright)
install(DIRECTORY ${PROJECT_SOURCE_DIR}/solver/include/ DESTINATION ${CMAKE_INSTALL_INCLUDEDIR} FILES_MATCHING PATTERN "*.hpp")

# Paths within these files start from where they lie, so that an installed tree may be moved.
set(package_dir ${CMAKE_INSTALL_LIBDIR}/cmake/gatherwright)
install(EXPORT gatherwright FILE gatherwrightTargets.cmake NAMESPACE gatherwright:: DESTINATION ${package_dir})
write_basic_package_version_file(${PROJECT_BINARY_DIR}/gatherwrightConfigVersion.cmake COMPATIBILITY SameMinorVersion)
install(FILES ${CMAKE_CURRENT_LIST_DIR}/gatherwrightConfig.cmake ${PROJECT_BINARY_DIR}/gatherwrightConfigVersion.cmake DESTINATION ${package_dir})

set(pkgconfig_dir ${CMAKE_INSTALL_LIBDIR}/pkgconfig)
file(RELATIVE_PATH prefix_from_pkgconfig /prefix/${pkgconfig_dir} /prefix)
string(REGEX REPLACE "/$" "" prefix_from_pkgconfig "${prefix_from_pkgconfig}")
configure_file(${CMAKE_CURRENT_LIST_DIR}/gatherwright.pc.in ${PROJECT_BINARY_DIR}/gatherwright.pc @ONLY)
install(FILES ${PROJECT_BINARY_DIR}/gatherwright.pc DESTINATION ${pkgconfig_dir})

install(FILES ${PROJECT_SOURCE_DIR}/README.md DESTINATION ${CMAKE_INSTALL_DOCDIR})
install(DIRECTORY ${PROJECT_SOURCE_DIR}/docs DESTINATION ${CMAKE_INSTALL_DOCDIR})
install(FILES ${PROJECT_SOURCE_DIR}/LICENSE DESTINATION ${CMAKE_INSTALL_DOCDIR} RENAME copyright)

# Opens the page from the menu, and a job by a click.
install(FILES ${CMAKE_CURRENT_LIST_DIR}/gatherwright.desktop DESTINATION ${CMAKE_INSTALL_DATADIR}/applications)
install(FILES ${PROJECT_SOURCE_DIR}/cli/page/assets/icon.svg DESTINATION ${CMAKE_INSTALL_DATADIR}/icons/hicolor/scalable/apps
  RENAME gatherwright.svg)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME gatherwright)
set(CPACK_PACKAGE_CONTACT "The makers of gatherwright <makers@gatherwright.invalid>")
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION "From body measures, the cloth and the edges of a garment of straight pieces,
gatherwright works out before the scissors go in how wide each piece should be,
how full each stretch will come out, whether the cloth takes that much, where
both edges are marked, and how to run the gathering threads.

The package holds the program, its manual, and the library for C++20.")
set(CPACK_DEBIAN_PACKAGE_SECTION misc)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_DEPENDS fonts-dejavu-core) # of the PDF
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS xdg-utils) # to open the page
set(CPACK_DEBIAN_PACKAGE_SUGGESTS libgsl-dev) # to link with the library
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_PRE_BUILD_SCRIPTS ${CMAKE_CURRENT_LIST_DIR}/prefix.cmake)
set(CPACK_STRIP_FILES ON)
include(CPack)
